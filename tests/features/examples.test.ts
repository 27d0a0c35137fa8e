import * as fs from 'node:fs';
import fc from 'fast-check';
import { globSync } from 'tinyglobby';
import { describe, expect, it } from 'vitest';
import type { FileView } from '../../server/src/analysis/view.ts';
import { Workspace } from '../../server/src/analysis/workspace.ts';
import { codeActions, fixAll } from '../../server/src/features/code-actions.ts';
import { codeLenses } from '../../server/src/features/code-lens.ts';
import { completion } from '../../server/src/features/completion/completion.ts';
import { definition } from '../../server/src/features/definition.ts';
import { diagnostics } from '../../server/src/features/diagnostics.ts';
import { foldingRanges } from '../../server/src/features/folding.ts';
import { format } from '../../server/src/features/format/format.ts';
import { hover } from '../../server/src/features/hover/hover.ts';
import { inlayHints } from '../../server/src/features/inlay-hints.ts';
import { documentLinks } from '../../server/src/features/links.ts';
import { namesIn, stretchOf } from '../../server/src/features/names/names-in.ts';
import { outline } from '../../server/src/features/outline.ts';
import { highlights, references } from '../../server/src/features/references.ts';
import { rename } from '../../server/src/features/rename.ts';
import { selectionRanges } from '../../server/src/features/selection.ts';
import { semanticTokens } from '../../server/src/features/semantic-tokens.ts';
import { checkFile } from '../../server/src/rules/run.ts';

const files = new Map(
  globSync('examples/*/*.yaml').map(file => [`file:///${file}`, fs.readFileSync(file, 'utf8')] as const),
);

function workspaceOf(texts: ReadonlyMap<string, string>): Workspace {
  const workspace = new Workspace();
  for (const [uri, text] of texts) workspace.set(uri, text);
  return workspace;
}

/** Every feature at one place; none may throw. */
function askEverything(workspace: Workspace, view: FileView, offset: number): void {
  const whole = { start: 0, end: view.tree.text.length };
  const findings = checkFile(view);
  diagnostics(workspace, view.uri, findings);
  codeActions(workspace, view.uri, findings, whole);
  fixAll(workspace, view.uri, findings);
  completion(workspace, view, offset);
  definition(workspace, view, offset);
  hover(workspace, view, offset);
  references(workspace, view, offset, true);
  highlights(view, offset);
  rename(workspace, view, offset, 'new name');
  selectionRanges(view.tree, offset);
  foldingRanges(view.tree);
  format(view.tree);
  documentLinks(view);
  outline(view);
  semanticTokens(view);
  if (view.kind !== 'procedure') return;
  codeLenses(view);
  inlayHints(view, { start: offset, end: offset + 200 });
}

describe('on the examples', () => {
  it('no feature fails in a file that is cut off anywhere', () => {
    const uris = [...files.keys()];
    expect(uris.length).toBeGreaterThan(5);
    fc.assert(
      fc.property(fc.constantFrom(...uris), fc.double({ min: 0, max: 1, noNaN: true }), (uri, part) => {
        const text = files.get(uri)!.slice(0, Math.floor(files.get(uri)!.length * part));
        const workspace = workspaceOf(new Map([...files, [uri, text]]));
        askEverything(workspace, workspace.view(uri)!, text.length);
      }),
      { numRuns: 25 },
    );
  }, 300_000);

  it('a name that is changed and changed back leaves every file as it was, and costs no finding', () => {
    const before = workspaceOf(files);
    // The free text of a caution may name a part, and no rename reaches it there.
    const isAboutText = (rule: string) => rule === 'hazard-without-caution';
    const findings = (workspace: Workspace) =>
      [...files.keys()].map(uri => checkFile(workspace.view(uri)!).filter(f => !isAboutText(f.rule)).length);
    const expected = findings(before);
    const all = [...files.keys()].flatMap(uri => {
      const view = before.view(uri)!;
      return namesIn(view).map(name => ({ uri, name: name.thing.name, at: stretchOf(view, name).start }));
    });
    expect(all.length).toBeGreaterThan(500);
    fc.assert(
      fc.property(fc.constantFrom(...all), ({ uri, name, at }) => {
        const { value, refused } = rename(before, before.view(uri)!, at, 'Zürich 7');
        if (refused !== undefined) {
          expect(refused).toMatch(/keeps its name$/);
          return;
        }
        const changed = workspaceOf(applied(files, value));
        expect(findings(changed)).toEqual(expected);
        // Nothing before the first change has moved.
        const first = value.filter(edit => edit.uri === uri).sort((a, b) => a.start - b.start)[0];
        const back = rename(changed, changed.view(uri)!, first.start, name);
        expect(back.refused).toBeUndefined();
        const texts = new Map([...files.keys()].map(one => [one, changed.view(one)!.tree.text]));
        expect(applied(texts, back.value ?? [])).toEqual(files);
      }),
      { numRuns: 10 },
    );
  }, 300_000);
});

type Edits = NonNullable<ReturnType<typeof rename>['value']>;

function applied(texts: ReadonlyMap<string, string>, edits: Edits): Map<string, string> {
  const result = new Map(texts);
  for (const { uri, start, end, text } of [...edits].sort((a, b) => b.start - a.start)) {
    const before = result.get(uri)!;
    result.set(uri, before.slice(0, start) + text + before.slice(end));
  }
  return result;
}
