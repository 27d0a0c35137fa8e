import fc from 'fast-check';
import { sample } from './support.ts';

/** Pieces that mean something in YAML, and a few that do not. */
const bits = [
  ...[
    'a',
    'b',
    '0',
    'Ω',
    '𝛀',
    ': ',
    ':',
    '\n',
    '\n  ',
    '\n    ',
    '- ',
    '\n- ',
    '\n  - ',
    '[',
    ']',
    '{',
    '}',
    ', ',
    ',',
  ],
  ...['"', "'", '#', ' # c', '|', '>', '|-\n   x', '>-', '|2\n', '&x ', '*x', '!t ', '%', '@', '`', '\t', '\\'],
  ...['\n---\n', '\n...\n', '\n# c\n', '\r\n', '<<: ', '\n\n'],
];

const bit = fc.constantFrom(...bits);

/** Short texts of such pieces. */
export const soup = fc.array(bit, { maxLength: 14 }).map(all => all.join(''));

export interface TextEdit {
  readonly at: number;
  readonly remove: number;
  readonly insert: string;
}

export const edit: fc.Arbitrary<TextEdit> = fc.record({
  at: fc.nat(sample.length),
  remove: fc.nat(6),
  insert: fc.array(bit, { maxLength: 3 }).map(all => all.join('')),
});

export function apply(text: string, { at, remove, insert }: TextEdit): string {
  return text.slice(0, at) + insert + text.slice(at + remove);
}

/** The sample with one small change in it. */
export const edited = edit.map(change => apply(sample, change));

/** A well-formed procedure of a few steps, in the order and the layout that the numbers choose. */
export const procedure = fc
  .array(fc.record({ name: fc.constantFrom('look', 'sense', 'mend', 'drive'), lines: fc.nat(3), gap: fc.nat(2) }), {
    maxLength: 6,
  })
  .map(steps => {
    const texts = steps.map(({ name, lines, gap }, i) => {
      const body = ['title: Reading at the pin', 'set: { key: run }', 'note: |\n      two\n      lines'].slice(
        0,
        lines,
      );
      return `  ${name}-${i % 3}:\n    minutes: ${i}\n${body.map(line => `    ${line}\n`).join('')}${'\n'.repeat(gap)}`;
    });
    return `format: 1\nsteps:\n${texts.join('')}wires:\n  - W1: S1 to S2\nendings:\n  done: { replace: S6 }\n`;
  });
