import * as fs from 'node:fs';
import { expect } from 'vitest';
import type { Workspace } from '../../server/src/analysis/workspace.ts';
import { codeActions, fixAll } from '../../server/src/features/code-actions.ts';
import { completion } from '../../server/src/features/completion/completion.ts';
import { definition } from '../../server/src/features/definition.ts';
import { diagnostics } from '../../server/src/features/diagnostics.ts';
import { foldingRanges } from '../../server/src/features/folding.ts';
import { format } from '../../server/src/features/format/format.ts';
import { hover } from '../../server/src/features/hover/hover.ts';
import { inlayHints } from '../../server/src/features/inlay-hints.ts';
import { outline } from '../../server/src/features/outline.ts';
import { references } from '../../server/src/features/references.ts';
import { semanticTokens } from '../../server/src/features/semantic-tokens.ts';
import { checkFile, type FoundFinding } from '../../server/src/rules/run.ts';
import { workspaceOf } from '../support/workspace.ts';

export type Files = ReadonlyMap<string, string>;

export const folder = 'file:///project/';

/** The three files of the lamp, by uri. */
export const lampFiles: Files = new Map(
  ['lamp.system.yaml', 'lamp-dark.procedure.yaml', 'lamp-dark.samples.yaml'].map(name => [
    folder + name,
    fs.readFileSync(new URL(`../features/${name}`, import.meta.url), 'utf8'),
  ]),
);

/** The findings of every file, each held against the rules of the house for messages. */
export function survive(files: Files): FoundFinding[] {
  const workspace = workspaceOf(files);
  return workspace.uris().flatMap(uri => findingsOf(workspace, uri));
}

/** Checks one file with another text in it, and asks for everything that the editor shows around the offset. */
export function tryText(workspace: Workspace, uri: string, text: string, offset: number): readonly FoundFinding[] {
  workspace.set(uri, text);
  const found = findingsOf(workspace, uri);
  askAround(workspace, uri, Math.min(offset, text.length));
  return found;
}

export function findingsOf(workspace: Workspace, uri: string): readonly FoundFinding[] {
  const view = workspace.view(uri);
  if (!view) throw new Error(`there is no ${uri}`);
  const found = checkFile(view);
  for (const finding of found) holdsTheRules(finding);
  expect(places(found)).toEqual([...new Set(places(found))]);
  return found;
}

/** Each rule speaks once at one place. */
function places(found: readonly FoundFinding[]): string[] {
  const units = new Map<object, number>();
  return found.map(({ rule, place: { span } }) => {
    units.set(span.unit, units.get(span.unit) ?? units.size);
    return `${rule} ${units.get(span.unit)} ${span.start} ${span.end}`;
  });
}

function holdsTheRules({ message, detail = '', help = '' }: FoundFinding): void {
  expect(message.length, message).toBeLessThanOrEqual(90);
  expect(message).toMatch(/^[^a-z].*[^.]$/s);
  expect(message).not.toContain('\n');
  const own = `${message} ${detail} ${help}`.replaceAll(/`[^`]*`/g, '');
  expect(own).not.toMatch(/\b(invalid|illegal|please|NaN|undefined|null|Infinity)\b|\[object/i);
}

function askAround(workspace: Workspace, uri: string, offset: number): void {
  const view = workspace.view(uri)!;
  const findings = checkFile(view);
  const near = { start: Math.max(0, offset - 200), end: offset + 200 };
  diagnostics(workspace, uri, findings);
  codeActions(workspace, uri, findings, near);
  fixAll(workspace, uri, findings);
  completion(workspace, view, offset);
  definition(workspace, view, offset);
  hover(workspace, view, offset);
  references(workspace, view, offset, true);
  foldingRanges(view.tree);
  format(view.tree);
  outline(view);
  semanticTokens(view);
  if (view.kind === 'procedure') inlayHints(view, near);
}
