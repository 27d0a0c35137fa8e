import { describe, expect, it } from 'vitest';
import { checkFile } from '../../server/src/rules/run.ts';
import { applied, fix, viewOf } from '../support/check.ts';
import { systemsByName } from '../support/systems.ts';
import { endings, measuring, procedure } from './fixtures/procedures.ts';
import { cold } from './fixtures/proof.ts';

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

  it.each([
    ['behind others', '[H1, W3, W4, F1]', '[H1, W3, W4]'],
    ['before others', '[F1, H1, W3, W4]', '[H1, W3, W4]'],
    [
      'line by line',
      '\n      - H1\n      - F1\n      - W3\n      - W4\n   ',
      '\n      - H1\n      - W3\n      - W4\n   ',
    ],
    ['first of its lines', '\n      - F1\n      - H1\n      - W3\n   ', '\n      - H1\n      - W3\n   '],
  ])('take out of a repair what is never at fault there: %s', (_, list, becomes) => {
    const isInLines = list.startsWith('\n');
    const written = (items: string) =>
      isInLines
        ? cold([
            'the-heater: { mend: [H1, W3, W4], confirm: confirm }',
            `the-heater:\n    mend:${items} confirm: confirm`,
          ])
        : cold(['[H1, W3, W4]', items]);
    fix(written(list), 'Take `F1` out of the repair', written(becomes));
  });

  it('move one end of the limits to where they tell a fault apart', () => {
    const text = cold(['limits: above 1 A', 'limits: 0.5 A .. 2 A']);
    const mended = text.replace('0.5 A .. 2 A', '900 mA .. 2 A');
    fix(text, 'Let the limits be `900 mA .. 2 A`', mended);
    expect(checkFile(viewOf(mended))).toEqual([]);
  });

  describe('of limits', () => {
    const voltage = (limits: string) =>
      measuring(`
    limits: ${limits} # of the lamp
    then: { within: fine, otherwise: ask }
`);

    it('leave them to the circuit where it contradicts them, and where a good machine can miss them', () => {
      for (const limits of ['4.5 V .. 5.5 V', '12.5 V .. 13 V']) {
        fix(voltage(limits), 'Derive the limits from the circuit', voltage('from the circuit'));
      }
    });

    it('leave those of a table to the circuit', () => {
      const text = systemsByName.get('lamp.system.yaml')!;
      const wrong = text.replace('9 Ω .. 11 Ω', '9 Ω .. 10 Ω');
      fix(wrong, 'Derive the limits from the circuit', text.replace('9 Ω .. 11 Ω', 'from the circuit'));
    });

    it('go by the row of the table for the same measurement, also in a variant and in braces', () => {
      const step = (limits: string) =>
        procedure(`
steps:
  look:
    disconnect: [X1]
    measure: resistance
    red: X1/1 (E1 side)
    black: X1/2 (E1 side)
${limits}
    then: { within: fine, otherwise: ask }
endings:
  ask: { refer: Ask the maker, connect: [X1] }
  fine: { no fault: Nothing wrong, connect: [X1] }
`);
      const title = 'Use the specification `lamp-ohms/cold`';
      fix(step('    limits: 9.2 Ω .. 12 Ω # cold'), title, step('    specification: lamp-ohms/cold # cold'));
      const apart = (entry: string) => step(`    by variant: { standard: { ${entry} } }\n    minutes: 2`);
      fix(apart('limits: 9.2 Ω .. 12 Ω'), title, apart('specification: lamp-ohms/cold'));
    });

    it('write `OL` where the circuit is open', () => {
      const open = (limits: string) =>
        procedure(`
steps:
  look:
    disconnect: [X1]
    measure: resistance
    red: X1/1 (S1 side)
    black: X1/2 (E1 side)
    limits: ${limits}
    then: { within: fine, otherwise: ask }
endings:
  ask: { refer: Ask the maker, connect: [X1] }
  fine: { no fault: Nothing wrong, connect: [X1] }
`);
      fix(open('from the circuit'), 'Write `OL`', open('OL'));
    });

    it('write limits from the circuit in the one way', () => {
      fix(voltage('from circuit'), 'Write `from the circuit`', voltage('from the circuit'));
      fix(
        voltage('from the circuit, with -2 % margin'),
        'Write `from the circuit, with 2 % margin`',
        voltage('from the circuit, with 2 % margin'),
      );
    });
  });
});
