import { describe, expect, it } from 'vitest';
import { completion } from '../../server/src/features/completion/completion.ts';
import { hover } from '../../server/src/features/hover/hover.ts';
import { inlayHints } from '../../server/src/features/inlay-hints.ts';
import { limitChanges } from '../../server/src/features/limit-changes.ts';
import { checkFile } from '../../server/src/rules/run.ts';
import { type Scene, scene } from './support.ts';

/** A resistor across a supply in two variants, and a step that measures it. */
const system = `format: 1
system: lamp
variants: { one: One, two: Two }
parts:
  G1: { kind: supply, voltage: 10 V ± 1 % }
  R1: { kind: resistor, resistance: 100 Ω ± 5 % }
  R2: { kind: resistor, resistance: 100 Ω ± 5 %, by variant: { two: { resistance: 50 Ω ± 5 % } } }
wires:
  - W1: G1.+ to R1.1
  - W2: R1.2 to R2.1
  - W3: R2.2 to G1.-
specifications:
  supply:
    measure: voltage
    red: G1.+
    black: G1.-
    rows: { on: { limits: 9 V .. 11 V } }
`;

const at = (limits: string, points = 'red: G1.+, black: G1.-', more = ''): string => `format: 1
procedure: look
applies to: { lamp.system.yaml: all }
starts from: [{ symptom: dark }]
start: look
steps:
  look:
    measure: voltage
    ${points.replace(', ', '\n    ')}
    limits: ${limits}
    then: { within: good, above: bad, otherwise: bad }${more}
endings:
  good: { no fault: Good }
  bad: { refer: Bad }
`;

const procedureScene = (text: string) => scene({ 'look.procedure.yaml': text, 'lamp.system.yaml': system });

/** The titles offered at the cursor, each with the text that it leaves. */
function offered({ workspace, view, offset }: Scene): Record<string, string> {
  const changes = limitChanges(workspace, view, { start: offset, end: offset });
  expect(new Set(changes.map(({ title }) => title)).size).toBe(changes.length);
  return Object.fromEntries(
    changes.map(({ title, edits }) => [
      title,
      [...edits]
        .sort((a, b) => b.start - a.start)
        .reduce((text, { start, end, text: own }) => text.slice(0, start) + own + text.slice(end), view.tree.text),
    ]),
  );
}

describe('changes of limits that an author may want', () => {
  it('leave typed ones to the circuit, from the key as well', () => {
    const wanted = { 'Derive the limits from the circuit': at('from the circuit') };
    expect(offered(procedureScene(at('9 V .. 1$01 V')))).toEqual(wanted);
    expect(offered(procedureScene(at('9 V .. 11 V').replace('limits', 'li$0mits')))).toEqual(wanted);
  });

  it('offer nothing elsewhere, nor where the circuit gives no number', () => {
    expect(offered(procedureScene(at('9 V .. 11 V').replace('measure', 'mea$0sure')))).toEqual({});
    const ohms = at('OL$0').replace('voltage', 'resistance');
    expect(offered(procedureScene(ohms))).toEqual({});
  });

  it('write derived ones out', () => {
    // 9.9 V .. 10.1 V; 0.5 % and 2 steps of 10 mV: 9.83 V and 10.17 V, out to the next step.
    expect(offered(procedureScene(at('from the circuit$0')))).toEqual({
      'Write the derived limits out': at('9.83 V .. 10.18 V'),
    });
  });

  it('write them out for each variant where they differ', () => {
    // One: 9.9 · 95 / 200 = 4.7025 V and 10.1 · 105 / 200 = 5.3025 V, 5.30247 V with 10 MΩ beside it; off by 25.5 mV and 28.512 mV.
    // Two: 9.9 · 47.5 / 152.5 = 3.08361 V and 10.1 · 52.5 / 147.5 = 3.59492 V, off by 17.4 mV and 20 mV.
    const points = 'red: R2.1, black: R2.2';
    expect(offered(procedureScene(at('from the cir$0cuit', points)))).toEqual({
      'Write the derived limits out': at(
        '4.676 V .. 5.331 V',
        points,
        '\n    by variant: { two: { limits: 3.066 V .. 3.615 V } }',
      ),
    });
  });

  it('are offered once where a variant changes something else', () => {
    const overlay = '\n    by variant: { two: { red: R1.1 } }';
    expect(offered(procedureScene(at('9 V .. 11 V$0', undefined, overlay)))).toEqual({
      'Derive the limits from the circuit': at('from the circuit', undefined, overlay),
    });
    expect(offered(procedureScene(at('from the circuit$0', undefined, overlay)))).toEqual({
      'Write the derived limits out': at('9.83 V .. 10.18 V', undefined, overlay),
    });
    // What a variant that has an entry of its own would need is not written into it.
    const apart = '\n    by variant: { two: { title: Behind the other one } }';
    expect(offered(procedureScene(at('from the circuit$0', 'red: R2.1, black: R2.2', apart)))).toEqual({});
  });

  it('leave nothing to say, either way', () => {
    const points = 'red: R1.1, black: G1.-';
    for (const limits of ['from the circuit$0', '9.5 V .. 10.5 V$0']) {
      const [text] = Object.values(offered(procedureScene(at(limits, points))));
      const aboutLimits = checkFile(procedureScene(text!).view).filter(({ place }) => {
        const { unit, start, end } = place.span;
        return /limits|circuit| V /.test(unit.text.slice(start, end));
      });
      expect(aboutLimits).toEqual([]);
    }
  });

  it('do the same for the rows of a table', () => {
    const table = (text: string) => scene({ 'lamp.system.yaml': text });
    const derived = system.replace('9 V .. 11 V', 'from the circuit');
    expect(offered(table(system.replace('.. 11 V }', '.. 11 V$0 }')))).toEqual({
      'Derive the limits from the circuit': derived,
    });
    expect(offered(table(derived.replace('from the circuit', 'from the circuit$0')))).toEqual({
      'Write the derived limits out': system.replace('9 V .. 11 V', '9.83 V .. 10.18 V'),
    });
  });
});

describe('what limits from the circuit come to', () => {
  const points = 'red: R2.1, black: R2.2';

  it('stands behind them', () => {
    const hints = ({ view }: Scene) => inlayHints(view, { start: 0, end: view.tree.text.length }).map(h => h.text);
    expect(hints(procedureScene(at('from the circuit')))).toEqual(['limits: 9.83 V .. 10.18 V']);
    expect(hints(procedureScene(at('from the circuit', points)))).toEqual([
      'limits: one 4.676 V .. 5.331 V · two 3.066 V .. 3.615 V',
    ]);
    expect(hints(scene({ 'lamp.system.yaml': system.replace('9 V .. 11 V', 'from the circuit') }))).toEqual([
      'limits: 9.83 V .. 10.18 V',
    ]);
    expect(hints(scene({ 'lamp.system.yaml': system }))).toEqual([]);
  });

  it('is told when hovering over them and over the branches', () => {
    const shown = (text: string) => {
      const { workspace, view, offset } = procedureScene(text);
      return hover(workspace, view, offset)?.markdown ?? '';
    };
    const text = at('from the circuit, with 1 % margin');
    // 9.9 V · 0.99 - 69.5 mV = 9.7315 V; 10.1 V · 1.01 + 70.5 mV = 10.2715 V.
    expect(shown(text.replace('limits:', 'lim$0its:'))).toContain(
      'The limits from the circuit are **9.73 V .. 10.28 V**',
    );
    expect(shown(text.replace('within', 'wit$0hin'))).toContain('Taken by 9.73 V .. 10.28 V, and leads to `good`.');
    expect(shown(text.replace('above', 'abo$0ve'))).toContain('Taken by a reading over 10.28 V, and leads to `bad`.');
    expect(shown(at('from the circuit', points).replace('within', 'wit$0hin'))).toContain(
      'Taken by a reading inside the limits',
    );
  });

  it('is told when hovering over a row of a table', () => {
    const shown = (limits: string) => {
      const { workspace, view, offset } = scene({ 'lamp.system.yaml': system.replace('9 V .. 11 V', limits) });
      return hover(workspace, view, offset)?.markdown ?? '';
    };
    expect(shown('9 V .. 1$01 V')).toBe('In the situation of this row the circuit gives **9.9 V .. 10.1 V**');
    expect(shown('from the $0circuit')).toContain('The limits from the circuit are **9.83 V .. 10.18 V**.');
  });

  it('is offered while typing, in steps and in tables', () => {
    const labels = ({ workspace, view, offset }: Scene) =>
      completion(workspace, view, offset).map(({ label }) => label);
    const both = ['from the circuit', 'from the circuit, with 2 % margin'];
    expect(labels(procedureScene(at('$0')))).toEqual(expect.arrayContaining(both));
    const table = scene({ 'lamp.system.yaml': system.replace('9 V .. 11 V', '$0') });
    expect(labels(table)).toEqual(expect.arrayContaining(both));
  });
});
