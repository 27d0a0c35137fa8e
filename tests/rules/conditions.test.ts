import { describe, expect, it } from 'vitest';
import { checkFile } from '../../server/src/rules/run.ts';
import { fix, viewOf } from '../support/check.ts';
import { conditions } from './fixtures/conditions.ts';
import { procedure } from './fixtures/procedures.ts';

const unplugged = (endings: string) =>
  procedure(`
steps:
  look:
    set: { key: off }
    disconnect: [X1]
    measure: resistance
    red: X1/1 (E1 side)
    black: X1/2 (E1 side)
    limits: 9 Ω .. 11 Ω
    then: { within: fine, otherwise: ask }
endings:
${endings}  ask: { refer: Ask the maker, connect: [X1] }
`);

describe('quick fixes', () => {
  it('put back what is apart at an ending', () => {
    const text = unplugged('  fine: { no fault: Nothing wrong }\n');
    fix(text, 'Add `connect: [X1]`', text.replace('Nothing wrong }', 'Nothing wrong, connect: [X1] }'));
  });

  it('put it back beside what is put back already, in a list or alone', () => {
    const text = unplugged('  fine: { no fault: Nothing wrong, connect: [S1] }\n').replace('[X1]\n', '[X1, S1]\n');
    fix(text, 'Add X1 to `connect`', text.replace('connect: [S1] }', 'connect: [S1, X1] }'));
    const alone = text.replace('connect: [S1] }', 'connect: S1 }');
    fix(alone, 'Add X1 to `connect`', alone.replace('connect: S1 }', 'connect: [S1, X1] }'));
  });

  it('refit what was removed', () => {
    const text = unplugged('  fine: { no fault: Nothing wrong }\n')
      .replace('disconnect: [X1]', 'remove: [F1]')
      .replace('X1/1 (E1 side)', 'F1.1 (part side)')
      .replace('X1/2 (E1 side)', 'F1.2 (part side)');
    fix(text, 'Add `refit: [F1]`', text.replace('Nothing wrong }', 'Nothing wrong, refit: [F1] }'));
  });

  it('set what a step needs in place of needing it', () => {
    const text = conditions['a need after the repair that is confirmed']!;
    const plain = text.replace(/^#.*\n/gm, '');
    fix(text, 'Write `set` in place of `needs`', plain.replace('needs: {', 'set: {'));
  });
});

it('tells where a technician comes from when a need does not hold', () => {
  const view = viewOf(conditions['a need that holds on one path and not on another']!);
  expect(checkFile(view).map(f => f.detail)).toEqual([
    '`glow` needs `key` at run. With everything at rest it is reached from `look`.',
  ]);
});
