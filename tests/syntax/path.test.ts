import { describe, expect, it } from 'vitest';
import { parse } from '../../server/src/syntax/parse.ts';
import { type PathItem, pathAt } from '../../server/src/syntax/path.ts';

/** The path at the mark `$0`, in words: names of entries, numbers of items, and what stands at the end. */
function path(marked: string): string {
  const offset = marked.indexOf('$0');
  const tree = parse(marked.replace('$0', ''));
  return pathAt(tree, offset).map(word).join(' > ');
}

function word({ node, entry, index }: PathItem): string {
  const kind = node.kind === 'scalar' ? node.text : node.kind;
  if (entry) return node === entry.key ? `key ${entry.key.text}` : `${entry.key.text}: ${kind}`;
  return index === undefined ? kind : `${index}: ${kind}`;
}

const procedure = (step: string) =>
  `format: 1\nsteps:\n  look:\n    title: Look\n  sense:\n${step}\nendings:\n  done: { replace: S6 }\n`;

describe('the path to an offset', () => {
  it.each([
    ['on a name', '    me$0asure: voltage', 'map > steps: map > sense: map > key measure'],
    ['behind a name', '    measure$0: voltage', 'map > steps: map > sense: map > key measure'],
    ['on a value', '    measure: vol$0tage', 'map > steps: map > sense: map > measure: voltage'],
    ['behind a value', '    measure: voltage$0', 'map > steps: map > sense: map > measure: voltage'],
    ['behind a colon', '    measure: $0', 'map > steps: map > sense: map > measure: empty'],
    ['on a name without colon', '    title: x\n    mea$0', 'map > steps: map > sense: map > key mea'],
    [
      'on a blank line in the column of the names',
      '    title: x\n    $0\n    red: A1',
      'map > steps: map > sense: map',
    ],
    ['on a blank line at the end of a step', '    title: x\n    $0', 'map > steps: map > sense: map'],
    ['on a blank line in the column of the steps', '    title: x\n  $0', 'map > steps: map'],
    ['on a blank line in the first column', '    title: x\n$0', 'map'],
    ['indented below a name without value', '    then:\n      $0', 'map > steps: map > sense: map > then: empty'],
    ['indented below a value', '    then:\n      within: a\n      $0', 'map > steps: map > sense: map > then: map'],
    ['in braces, on a name', '    set: { k$0ey: run }', 'map > steps: map > sense: map > set: map > key key'],
    ['in braces, on a value', '    set: { key: r$0un }', 'map > steps: map > sense: map > set: map > key: run'],
    ['in braces, behind a comma', '    set: { key: run, $0 }', 'map > steps: map > sense: map > set: map'],
    ['in brackets', '    inspect: [ W41, X$012 ]', 'map > steps: map > sense: map > inspect: list > 1: X12'],
    ['in brackets, behind a comma', '    inspect: [ W41, $0 ]', 'map > steps: map > sense: map > inspect: list'],
    ['on an item', '    inspect:\n      - W41\n      - X$0', 'map > steps: map > sense: map > inspect: list > 1: X'],
    [
      'behind a dash',
      '    inspect:\n      - W41\n      - $0',
      'map > steps: map > sense: map > inspect: list > 1: empty',
    ],
    [
      'in a map of an item',
      '    cautions:\n      - warning: x\n        $0',
      'map > steps: map > sense: map > cautions: list > 0: map',
    ],
    ['below a list', '    inspect:\n      - W41\n      $0', 'map > steps: map > sense: map > inspect: list'],
    [
      'while a bracket is open',
      '    inspect: [ W41, X$0\n    red: A1',
      'map > steps: map > sense: map > inspect: list > 1: X',
    ],
    ['in a block text', '    note: |\n      on$0e\n      two', 'map > steps: map > sense: map > note: one\ntwo\n'],
  ])('%s', (_, step, expected) => {
    expect(path(procedure(step))).toBe(expected);
    expect(path(procedure(step).replaceAll('\n', '\r\n'))).toBe(expected);
  });

  it('is the root in an empty file, and before the first entry', () => {
    expect(path('$0')).toBe('empty');
    expect(path('# $0\na: 1\n')).toBe('map');
  });

  it('leads to the value of an anchor from its alias', () => {
    expect(path('a: &x { b: 1 }\nc: *$0x\n')).toBe('map > c: map');
  });
});
