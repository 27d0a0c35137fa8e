import { describe, expect, it } from 'vitest';
import { checkFile } from '../../server/src/rules/run.ts';
import { applied, fix, viewOf } from '../support/check.ts';
import { endings, measuring, procedure } from './fixtures/procedures.ts';

describe('quick fixes', () => {
  const misspelt = procedure(`
steps:
  look:
    inspect: [W4]
    then:
      damage found: mend-it   # the usual one
      all sound: fine
${endings}`);

  it('write the name that was meant', () => {
    fix(misspelt.replace('mend-it', 'fin'), 'Write `fine`', misspelt.replace('mend-it', 'fine'));
  });

  it('create the step, with the indentation of its neighbour', () => {
    fix(
      misspelt,
      'Create the step `mend-it`',
      misspelt.replace('endings:', '  mend-it:\n    title: mend-it\n    inspect:\n    then:\nendings:'),
    );
  });

  it('create the ending behind the last one', () => {
    fix(misspelt, 'Create the ending `mend-it`', `${misspelt.trimEnd()}\n  mend-it: { mend: [] }\n`);
  });

  it('start at the first step', () => {
    const text = misspelt.replace('start: look\n', '').replace('mend-it', 'ask');
    fix(text, 'Start at `look`', text.replace('steps:', 'start: look\nsteps:'));
  });

  it('confirm a repair as the others are confirmed', () => {
    const text = procedure(`
steps:
  look: { inspect: [W3, W4], then: { W3 chafed: mend-W3, W4 chafed: mend-W4 } }
  again: { operate: Switch the lamp on, then: { bright: done, dark: look } }
endings:
  mend-W3: { mend: [W3], confirm: again }
  mend-W4: { mend: [W4] }
  done: { repaired: The lamp is bright }
`);
    fix(text, 'Add `confirm: again`', text.replace('{ mend: [W4] }', '{ mend: [W4], confirm: again }'));
  });

  it.each([
    ['inspect: [W4]', '{ damage found: first-bad, all sound: fine-now }'],
    ['operate: Switch the lamp on', '{ works: fine-now, does not work: first-bad }'],
    ['ask: Was it wet?', '{ yes: first-yes, no: fine-now }'],
    ['do: Clean it', 'fine-now'],
    [
      'measure: voltage, red: E1.1 (back-probe), black: GND-1, limits: 11 V .. 13 V',
      '{ within: fine-now, otherwise: first-bad }',
    ],
    ['record: { channels: [E1.1, S1.1], for: 1 min }', '{ no event: fine-now, E1.1 moved first: first-bad }'],
  ])('say what comes after `%s`', (action, then) => {
    const text = procedure(`
steps:
  look: { inspect: [W3], then: { damage found: ask, all sound: first } }
  first: { set: { key: run }, ${action} }
  fine-now: { operate: Switch the lamp on, then: { bright: fine, dark: ask } }
${endings}`);
    const mended = text.replace(` ${action} }`, ` ${action}, then: ${then} }`);
    fix(text, `Add \`then: ${then}\``, mended);
    const left = checkFile(viewOf(mended)).filter(({ severity }) => severity === 'error');
    expect(left.map(({ rule }) => rule)).toEqual(then.includes('first-') ? ['unknown-name'] : []);
    const empty = text.replace(` ${action} }`, ` ${action}, then: }`);
    fix(empty, `Add \`then: ${then}\``, mended);
  });

  it('let a branch reach its neighbour', () => {
    const text = measuring(`
    limits: at least 11.5 V
    then:
      within: fine
      below 3 V: ask
`);
    fix(text, 'Make it `below 11.5 V`', text.replace('below 3 V', 'below 11.5 V'));
  });

  it('add `otherwise` in the style of the step, also with carriage returns', () => {
    const text = measuring(`
    limits: at least 11.5 V
    then:
      within: fine
      below 3 V: ask # the feed
`);
    fix(text, 'Add `otherwise`', text.replace('ask # the feed', 'ask\n      otherwise: # the feed'));
    const inBraces = measuring(`
    limits: at least 11.5 V
    then: { within: fine, below 3 V: ask }
`);
    fix(inBraces, 'Add `otherwise`', inBraces.replace('3 V: ask }', '3 V: ask, otherwise: }'));
    const view = viewOf(text.replaceAll('\n', '\r\n'));
    const add = checkFile(view)
      .flatMap(f => f.fixes ?? [])
      .find(f => f.title === 'Add `otherwise`')!;
    expect(applied(view, add.edits)).toContain('ask\r\n      otherwise: # the feed');
  });

  it('are certain only where the names differ by case, blanks or hyphens', () => {
    const preferred = (target: string) =>
      checkFile(viewOf(misspelt.replace('mend-it', target)))
        .flatMap(f => f.fixes ?? [])
        .filter(f => f.preferred)
        .map(f => f.title);
    expect(preferred('Fine')).toEqual(['Write `fine`']);
    expect(preferred('fin')).toEqual([]);
  });
});
