import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse } from '../../server/src/syntax/parse.ts';
import { find, type Node, type SyntaxTree } from '../../server/src/syntax/tree.ts';
import { edited } from './arbitraries.ts';
import { sample, visit } from './support.ts';

describe('spans', () => {
  it.each([
    ['as it is', sample],
    ['with CRLF', sample.replaceAll('\n', '\r\n')],
    ['with characters beyond the basic plane above', `# 𝛀𝛀\n${sample}`],
  ])('of texts cover their source, %s', (_, text) => {
    const tree = parse(text);
    visit(tree.root, node => {
      if (node.kind !== 'scalar') return;
      const source = sourceOf(tree, node);
      if (node.quoted) expect(source).toMatch(/^(["']).*\1$/s);
      else if (/^[|>]/.test(source))
        expect(source.split('\n').at(-1)!.trim()).toBe(node.text.trim().split('\n').at(-1)!.trim());
      else expect(source).toBe(node.text);
    });
  });

  it('of maps, lists and entries go from their first to their last character', () => {
    const tree = parse(sample);
    const tools = find(tree.root, 'tools')!;
    expect(sourceOf(tree, tools)).toBe('tools: [multimeter,\n  back-probe pins, recorder]');
    expect(sourceOf(tree, tools.value)).toBe('[multimeter,\n  back-probe pins, recorder]');
    const steps = find(tree.root, 'steps')!;
    expect(sourceOf(tree, steps)).toMatch(/^steps:\n {2}look:.*as one and two$/s);
    const look = find(steps.value, 'look')!;
    expect(sourceOf(tree, look)).toMatch(/^look:\n.*all sound: sense }$/s);
    expect(sourceOf(tree, find(look.value, 'cautions')!.value)).toMatch(/^- warning: >\n.*and wait\.$/s);
    expect(sourceOf(tree, tree.root)).toMatch(/^format: 1\n.*X12\] }$/s);
  });

  it('of a block text end with its last character', () => {
    const tree = parse('a: |\n  one\n  two\n\n# c\nb: 1\n');
    expect(sourceOf(tree, find(tree.root, 'a')!.value)).toBe('|\n  one\n  two');
  });

  it('of nothing stand behind the colon or the dash', () => {
    const tree = parse('a:   # later\nb:\n  - \n  -\n  - { c: , d }\n');
    const at: number[] = [];
    visit(tree.root, node => void (node.kind === 'empty' && at.push(tree.absolute(node.span).start)));
    expect(at.map(offset => tree.text.slice(0, offset).split('\n').at(-1))).toEqual([
      'a:',
      '  -',
      '  -',
      '  - { c:',
      '  - { c: , d',
    ]);
  });

  it('count UTF-16 code units', () => {
    const tree = parse('"𝛀": { Ω: "𝛀𝛀" , b: c }');
    expect(sourceOf(tree, find(find(tree.root, '𝛀')!.value, 'b')!.value)).toBe('c');
  });

  it('lie in the text, in order, and inside what they are part of', () => {
    fc.assert(
      fc.property(edited, text => {
        const tree = parse(text);
        visit(tree.root, node => {
          const { start, end } = tree.absolute(node.span);
          expect(start).toBeLessThanOrEqual(end);
          expect(end).toBeLessThanOrEqual(text.length);
          if (node.kind !== 'map') return;
          for (const entry of node.entries) {
            const own = tree.absolute(entry.span);
            const key = tree.absolute(entry.key.span);
            expect(own.start).toBe(key.start);
            expect(own.end).toBeGreaterThanOrEqual(key.end);
            expect(own.start).toBeGreaterThanOrEqual(start);
            expect(own.end).toBeLessThanOrEqual(end);
          }
        });
        for (const problem of tree.problems) {
          const { start, end } = tree.absolute(problem.span);
          expect(start).toBeLessThanOrEqual(end);
          expect(end).toBeLessThanOrEqual(text.length + 1);
        }
      }),
      { numRuns: 100 },
    );
  });

  it('of another tree stand nowhere in this one', () => {
    const other = parse('other: 1');
    expect(parse('a: 1').absolute(other.root.span)).toEqual({ start: 0, end: 0 });
  });
});

function sourceOf(tree: SyntaxTree, { span }: { readonly span: Node['span'] }): string {
  const { start, end } = tree.absolute(span);
  return tree.text.slice(start, end);
}
