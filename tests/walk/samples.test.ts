import * as fs from 'node:fs';
import * as path from 'node:path';
import { fileURLToPath } from 'node:url';
import { globSync } from 'tinyglobby';
import { describe, expect, it } from 'vitest';
import type { SamplesView } from '../../server/src/analysis/view.ts';
import { missInWords } from '../../server/src/walk/miss-in-words.ts';
import { runSample, unusedReadings } from '../../server/src/walk/samples.ts';
import { workspaceOf } from '../support/workspace.ts';
import { procedureText, project } from './support.ts';

const root = fileURLToPath(new URL('../../examples/', import.meta.url));

describe('the sample walks of the examples', () => {
  const files = globSync('*/*.yaml', { cwd: root, ignore: ['broken/**'] }).sort();
  const workspace = workspaceOf(
    files.map(file => [`file:///${file}`, fs.readFileSync(path.join(root, file), 'utf8')] as const),
  );
  const samples = files.filter(file => file.endsWith('.samples.yaml'));

  it('are there for every procedure', () => {
    const procedures = files.filter(file => file.endsWith('.procedure.yaml'));
    expect(samples).toEqual(procedures.map(file => file.replace('.procedure.', '.samples.')));
  });

  it.each(samples)('%s reach their endings, and need every reading', file => {
    const { samples: read, procedure } = workspace.view(`file:///${file}`) as SamplesView;
    const runs = read.walks.flatMap(walk => runSample(procedure!, walk));
    expect(runs.length).toBeGreaterThan(4);
    expect(runs.filter(run => !run.reached).map(run => [run.sample.id, missInWords(run)])).toEqual([]);
    expect(runs.flatMap(unusedReadings)).toEqual([]);
  });
});

const steps = `
steps:
  look: { inspect: [W4], then: { wire chafed: mend-W4, all sound: clean } }
  clean: { do: Clean the plug, then: volts }
  volts: { set: { key: run }, measure: voltage, red: E1.1, black: GND-1, limits: 11.8 V .. 13.1 V, then: { within: replace-lamp, below: feed-is-bad } }
  put-back: { do: Put the cover back, then: try }
  try: { operate: Switch the lamp on, then: { bright: done, dark: look } }
endings:
  mend-W4: { mend: [W4], confirm: put-back }
  replace-lamp: { replace: [E1], confirm: try }
  feed-is-bad: { refer: Feed of the lamp switch }
  done: { repaired: The lamp is bright }
`;

function run(walk: string, system = 'lamp.system.yaml', text = steps) {
  const workspace = project({
    'example.procedure.yaml': procedureText(system, text),
    'example.samples.yaml': `format: 1\nsamples of: example.procedure.yaml\nwalks:\n  sample: ${walk}\n`,
  });
  const view = workspace.view('file:///project/example.samples.yaml') as SamplesView;
  return runSample(view.procedure!, view.samples.walks[0]!);
}

describe('one sample walk', () => {
  it.each([
    ['{ readings: { look: all sound, volts: 12 V }, ends at: replace-lamp }', 3],
    ['{ starts from: L01, readings: { volts: 3 V }, ends at: feed-is-bad }', 1],
    // Beyond a repair it goes for the sake of a reading that stands there.
    ['{ starts from: L01, readings: { volts: 12 V, try: bright }, ends at: done }', 3],
    ['{ readings: { look: wire chafed, try: bright }, ends at: done }', 4],
    ['{ readings: { look: wire chafed, try: bright }, ends at: mend-W4 }', 1],
  ])('%s reaches its ending', (walk, steps) => {
    const [one] = run(walk);
    expect([one!.reached, one!.miss, one!.walk.passed.length]).toEqual([true, undefined, steps]);
  });

  it.each([
    [
      'another ending',
      '{ readings: { look: wire chafed }, ends at: feed-is-bad }',
      'The walk ends at `mend-W4`, not at `feed-is-bad`',
      'It comes there from `look`, where the answer is `wire chafed`.',
    ],
    [
      'no reading',
      '{ readings: { look: all sound }, ends at: feed-is-bad }',
      'The walk stops at `volts`, for which it has no reading',
      'It comes there from `look`, where the answer is `all sound`.',
    ],
    [
      'a gap',
      '{ starts from: L01, readings: { volts: 14 V }, ends at: feed-is-bad }',
      'No branch takes `14 V`',
      'The walk stops at `volts`. The branches are `within` (11.8 V .. 13.1 V), `below` (below 11.8 V).',
    ],
    [
      'a repair whose confirmation has no reading',
      '{ readings: { look: wire chafed }, ends at: done }',
      'The walk ends at `mend-W4`, not at `done`',
      'It comes there from `look`, where the answer is `wire chafed`.',
    ],
    [
      'a way in that is not there',
      '{ starts from: L02, readings: { volts: 12 V }, ends at: replace-lamp }',
      'The procedure does not start from `L02`',
      undefined,
    ],
    [
      'a circle',
      '{ readings: { look: wire chafed, try: dark }, ends at: done }',
      'The walk comes to `look` a second time',
      'It comes there from `try`, where the answer is `dark`.',
    ],
  ])('misses its ending by %s, and says why', (_what, walk, message, detail) => {
    const [one] = run(walk);
    expect(one!.reached).toBe(false);
    expect(missInWords(one!)).toMatchObject({ message, detail });
  });

  it('ends in a circle of instructions', () => {
    const circle =
      'steps:\n  look: { do: Wait, then: on }\n  on: { do: Wait more, then: look }\nendings:\n  done: { no fault: Fine }\n';
    const [one] = run('{ ends at: done }', 'lamp.system.yaml', circle);
    expect(one!.miss).toEqual({ kind: 'loop', step: 'look' });
  });

  it('tells which readings it never needed', () => {
    const [one] = run('{ readings: { look: wire chafed, volts: 12 V }, ends at: mend-W4 }');
    expect(unusedReadings(one!)).toEqual(['volts']);
  });

  it('is walked in every variant where it names none, else in the one that it names', () => {
    const text = 'steps:\n  look: { ask: Dark?, then: { yes: end } }\nendings:\n  end: { no fault: Fine }\n';
    const of = (walk: string) => run(walk, 'lamp-variants.system.yaml', text).map(one => one.variant);
    expect(of('{ readings: { look: yes }, ends at: end }')).toEqual(['plain', 'with-dimmer']);
    expect(of('{ variant: plain, readings: { look: yes }, ends at: end }')).toEqual(['plain']);
    expect(of('{ variant: gone, readings: { look: yes }, ends at: end }')).toEqual([]);
  });
});
