/** Files as they stand while somebody types, or after an accident: nothing throws, and every message keeps the rules of the house. */

import * as fs from 'node:fs';
import fc from 'fast-check';
import { globSync } from 'tinyglobby';
import { describe, expect, it, vi } from 'vitest';
import type { Workspace } from '../../server/src/analysis/workspace.ts';
import { workspaceOf } from '../support/workspace.ts';
import { type Files, findingsOf, lampFiles, survive, tryText } from './support.ts';

const examples: Files = new Map(
  globSync('examples/*/*.yaml')
    .sort()
    .map(file => [`file:///${file}`, fs.readFileSync(file, 'utf8')] as const),
);
const lamp = [...lampFiles.keys()];
const all: Files = new Map([...lampFiles, ...examples]);

// A whole run checks some thousand texts; this only stops one that hangs.
vi.setConfig({ testTimeout: 180_000 });

const workspaces = new Map<string, Workspace>();

/** The workspace of the folder that the file lies in, with every file as it was written. */
function workspaceAround(uri: string): Workspace {
  const folder = uri.slice(0, uri.lastIndexOf('/') + 1);
  const beside = [...all].filter(([one]) => one.startsWith(folder));
  const workspace = workspaces.get(folder) ?? workspaceOf(beside);
  workspaces.set(folder, workspace);
  for (const [one, text] of beside) workspace.set(one, text);
  return workspace;
}

describe('a file', () => {
  it.each(lamp)('can end after any line: %s', uri => {
    const text = lampFiles.get(uri)!;
    const workspace = workspaceOf(lampFiles);
    for (let end = text.indexOf('\n') + 1; end > 0; end = text.indexOf('\n', end) + 1) {
      workspace.set(uri, text.slice(0, end));
      for (const other of lamp) findingsOf(workspace, other);
    }
  });

  it('can lack any line', () => {
    for (const [uri, text] of examples) {
      const workspace = workspaceAround(uri);
      const lines = text.split('\n');
      for (let line = 1; line < lines.length; line += 17) {
        workspace.set(uri, [...lines.slice(0, line), ...lines.slice(line + 1)].join('\n'));
        findingsOf(workspace, uri);
      }
    }
  });

  it('can lack any stretch', () => {
    fc.assert(
      fc.property(fc.constantFrom(...all.keys()), fc.nat(), fc.nat({ max: 300 }), (uri, from, length) => {
        const text = all.get(uri)!;
        const start = from % text.length;
        const cut = text.slice(0, start) + text.slice(start + length);
        tryText(workspaceAround(uri), uri, cut, start);
      }),
      { numRuns: 40 },
    );
  });

  it('can have its words in any order', () => {
    const words = /[^\s,{}[\]:]+/g;
    fc.assert(
      fc.property(fc.constantFrom(...all.keys()), fc.array(fc.nat(), { minLength: 2, maxLength: 8 }), (uri, picks) => {
        const text = all.get(uri)!;
        const found = [...text.matchAll(words)];
        const taken = [...new Set(picks.map(pick => pick % found.length))].sort((a, b) => a - b);
        const moved = [...taken.slice(1), taken[0]!];
        let swapped = text;
        for (let i = taken.length - 1; i >= 0; i--) {
          const { index, 0: word } = found[taken[i]!]!;
          swapped = swapped.slice(0, index) + found[moved[i]!]![0] + swapped.slice(index + word.length);
        }
        tryText(workspaceAround(uri), uri, swapped, found[taken[0]!]!.index);
      }),
      { numRuns: 40 },
    );
  });

  it('can have any characters put in', () => {
    const piece = fc.oneof(
      fc.constantFrom(
        '\t',
        ': ',
        '- ',
        '{',
        '}',
        '[',
        ']',
        '"',
        "'",
        '#',
        '&a ',
        '*a ',
        '!!x ',
        '|\n',
        '\r',
        '\u0000',
        '\uFEFF',
      ),
      fc.constantFrom(
        '1e999 Ω',
        '-0 V',
        '∞',
        '½',
        '٣ V',
        '0x10',
        '1,5,0 V',
        '.',
        '..',
        '±',
        'OL',
        'by variant:',
        '\n\n  : x\n',
      ),
      fc.string({ unit: 'binary', maxLength: 6 }),
    );
    fc.assert(
      fc.property(fc.constantFrom(...all.keys()), fc.nat(), piece, (uri, from, inserted) => {
        const text = all.get(uri)!;
        const at = from % text.length;
        tryText(workspaceAround(uri), uri, text.slice(0, at) + inserted + text.slice(at), at);
      }),
      { numRuns: 60 },
    );
  });
});

describe('the same file', () => {
  const summary = (files: Files) => survive(files).map(({ rule, message }) => `${rule}: ${message}`);

  it('says the same with line breaks of Windows', () => {
    for (const uris of [lamp, [...examples.keys()]]) {
      const files = new Map(uris.map(uri => [uri, all.get(uri)!]));
      const windows = new Map([...files].map(([uri, text]) => [uri, text.replaceAll('\n', '\r\n')]));
      expect(summary(windows)).toEqual(summary(files));
    }
  });

  it('says the same behind a byte order mark', () => {
    const marked = new Map([...lampFiles].map(([uri, text]) => [uri, `\uFEFF${text}`]));
    expect(summary(marked)).toEqual(summary(lampFiles));
  });
});
