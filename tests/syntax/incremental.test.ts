import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse } from '../../server/src/syntax/parse.ts';
import { type Entry, find, type MapNode, type Node, type SyntaxTree } from '../../server/src/syntax/tree.ts';
import { apply, edit, procedure, soup } from './arbitraries.ts';
import { dump, plain, sample, visit } from './support.ts';

describe('reading a text again after an edit', () => {
  it('gives what reading it afresh gives', () => {
    fc.assert(
      fc.property(fc.array(edit, { minLength: 1, maxLength: 5 }), edits => {
        let text = sample;
        let tree = parse(text);
        for (const change of edits) {
          text = apply(text, change);
          tree = parse(text, tree);
          expect(dump(tree)).toEqual(dump(parse(text)));
        }
      }),
      { numRuns: 100 },
    );
  });

  it('gives the same between any two texts', () => {
    fc.assert(
      fc.property(fc.oneof(procedure, soup), fc.oneof(procedure, soup), (before, after) => {
        expect(dump(parse(after, parse(before)))).toEqual(dump(parse(after)));
      }),
      { numRuns: 200 },
    );
  });

  it('keeps every unit and node but those of the step that was edited', () => {
    const before = parse(sample);
    const after = parse(sample.replace('Keypad sense voltage', 'Keypad voltage'), before);
    const edited = find(steps(after), 'sense')!;
    expect(plain(edited.value)).toMatchObject({ title: 'Keypad voltage' });
    expect(edited).not.toBe(find(steps(before), 'sense'));
    expect(find(steps(after), 'look')).toBe(find(steps(before), 'look'));
    for (const name of ['format', 'title', 'tools', 'wires', 'endings'])
      expect(find(after.root, name)).toBe(find(before.root, name));
    const kept = after.units.filter(({ unit }) => before.units.some(old => old.unit === unit));
    expect(after.units.length - kept.length).toBe(1);
  });

  it('keeps the tree of an unchanged text, and all nodes where only comments at its head changed', () => {
    const before = parse(sample);
    expect(parse(`${sample}`, before)).toBe(before);
    const after = parse(sample.replace('# Auxiliary flow control', '# Auxiliary flow'), before);
    expect(entries(after.root)).toEqual(entries(before.root));
    entries(after.root).forEach((entry, i) => void expect(entry).toBe(entries(before.root)[i]));
  });

  it('keeps a step that another one was put before, at its new place', () => {
    const before = parse(sample);
    const text = sample.replace('  sense:\n', '  between:\n    title: New\n\n  sense:\n');
    const after = parse(text, before);
    const sense = find(steps(after), 'sense')!;
    expect(sense).toBe(find(steps(before), 'sense'));
    expect(text.slice(after.absolute(sense.key.span).start).startsWith('sense:')).toBe(true);
    expect(sample.slice(before.absolute(sense.key.span).start).startsWith('sense:')).toBe(true);
  });

  it('tells units of equal text apart', () => {
    const text = 'steps:\n  a:\n    b: 1\n  a:\n    b: 1\n';
    const tree = parse(text);
    const [first, second] = entries(steps(tree));
    expect(first!.span.unit.text).toBe(second!.span.unit.text);
    expect(first!.span.unit).not.toBe(second!.span.unit);
    const [one, two] = [tree.absolute(first!.span).start, tree.absolute(second!.span).start];
    expect([one, two]).toEqual([text.indexOf('a:'), text.lastIndexOf('a:')]);
    const after = parse(text.replace('  a:', '  new:\n    c: 2\n  a:'), tree);
    expect(entries(steps(after)).slice(1)).toEqual([first, second]);
    expect(new Set(after.units.map(({ unit }) => unit)).size).toBe(after.units.length);
  });

  it('has every node in a unit of its own tree', () => {
    fc.assert(
      fc.property(edit, change => {
        const tree = parse(apply(sample, change), parse(sample));
        const units = new Set(tree.units.map(({ unit }) => unit));
        visit(tree.root, node => void expect(units.has(node.span.unit)).toBe(true));
        for (const { span } of tree.problems) expect(units.has(span.unit)).toBe(true);
      }),
    );
  });

  it('covers the text with its units, and finds the unit at each offset', () => {
    fc.assert(
      fc.property(edit, change => {
        const text = apply(sample, change);
        const tree = parse(text);
        expect(tree.units.map(({ unit }) => unit.text).join('')).toBe(text.replace(/\r(?!\n)/g, '\n'));
        for (const { unit, base } of tree.units) {
          expect(tree.unitAt(base)!.unit).toBe(unit);
          expect(tree.unitAt(base + unit.text.length - 1)!.unit).toBe(unit);
        }
        expect(tree.unitAt(text.length)).toBe(tree.units.at(-1));
        expect(tree.unitAt(text.length + 1)).toBeUndefined();
        expect(tree.unitAt(-1)).toBeUndefined();
      }),
    );
  });

  it('still knows the steps while the colon of `steps:` is missing', () => {
    const before = parse(sample);
    const after = parse(sample.replace('steps:', 'steps'), before);
    expect(find(steps(after), 'look')).toBe(find(steps(before), 'look'));
    expect(after.problems.map(problem => problem.id)).toEqual(['missing-colon']);
  });

  it('says which units are damaged', () => {
    const tree = parse(sample.replace('set: { key: run, S6: on }', 'set: { key: run, S6: on'));
    const damaged = tree.units
      .filter(({ unit }) => tree.damaged(unit))
      .map(({ unit }) => unit.text.trim().split('\n')[0]);
    expect(damaged).toEqual(['sense:']);
  });
});

function steps(tree: SyntaxTree): MapNode {
  const node = find(tree.root, 'steps')?.value;
  if (node?.kind !== 'map') throw new Error('the tree has no steps');
  return node;
}

function entries(node: Node): readonly Entry[] {
  return node.kind === 'map' ? node.entries : [];
}
