import * as fs from 'node:fs';
import { globSync } from 'tinyglobby';
import { describe, expect, it } from 'vitest';
import { Workspace } from '../../server/src/analysis/workspace.ts';
import { rules } from '../../server/src/rules/index.ts';
import { checkAlone, checkWithoutProof, type FoundFinding } from '../../server/src/rules/run.ts';
import { parseFixture } from '../support/fixture.ts';
import { randomFrom } from '../support/random-network.ts';
import { workspaceOf } from '../support/workspace.ts';

const told = (found: readonly FoundFinding[]) => found.map(f => [f.rule, f.severity, f.message, f.place.span]);

/** What is told of a file before the others are read, and when they are there, is told of it in the end. */
function isKept(workspace: Workspace, uri: string, text: string): void {
  const view = workspace.view(uri);
  if (!view) return;
  const alone = new Workspace();
  alone.set(uri, text);
  const all = told(checkWithoutProof(view));
  expect(all).toEqual(expect.arrayContaining(told(checkAlone(alone.view(uri)!))));
  expect(all).toEqual(expect.arrayContaining(told(checkAlone(view))));
}

/** Broken off, or with a line, a character or the order of two lines wrong. */
function halfTyped(whole: string, kind: number, random: () => number): string {
  const pick = (count: number) => Math.floor(random() * count);
  if (kind % 3 === 0) return whole.slice(0, pick(whole.length));
  const lines = whole.split('\n');
  const at = pick(lines.length);
  const line = lines[at]!;
  const gap = pick(line.length + 1);
  if (kind % 3 === 1) lines[at] = line.slice(0, gap) + line.slice(gap + 1);
  else lines.splice(at, pick(2), lines[pick(lines.length)]!);
  return lines.join('\n');
}

describe('what a file tells before any other is read', () => {
  it.each(rules.flatMap(({ id, bad, good }) => [[id, bad] as const, [`not ${id}`, good] as const]))(
    'is never taken away by what follows: %s',
    (_, fixture) => {
      const files = parseFixture(fixture).files.map(({ uri, text }) => [uri, text] as const);
      const workspace = workspaceOf(files);
      for (const [uri, text] of files) isKept(workspace, uri, text);
    },
  );

  it('is never taken away in the examples and in their broken copies', () => {
    const files = globSync('examples/**/*.yaml').map(
      file => [`file:///${file}`, fs.readFileSync(file, 'utf8')] as const,
    );
    const workspace = workspaceOf(files);
    for (const [uri, text] of files) isKept(workspace, uri, text);
  }, 60_000);

  it('is never taken away in a text that is being typed', () => {
    const examples = globSync('examples/{generator,loader,workboat}/*.yaml').map(
      file => [`file:///${file}`, fs.readFileSync(file, 'utf8')] as const,
    );
    const random = randomFrom(20_261_125);
    for (const [uri, whole] of examples.filter(([name]) => !name.includes('samples'))) {
      for (let i = 0; i < 6; i++) {
        const text = halfTyped(whole, i, random);
        isKept(workspaceOf([...examples, [uri, text]]), uri, text);
      }
    }
  }, 60_000);

  it('is a branch that leads nowhere, and a value that no branch takes', () => {
    const text = `
format: 1
procedure: dark
applies to: { lamp.system.yaml: all }
starts from: [{ symptom: lamp stays dark }]
start: volts
steps:
  volts: { measure: voltage, red: X1/1, black: G1, limits: 11 V .. 13 V, then: { below: nowhere, within: fine } }
endings:
  fine: { no fault: The lamp is bright }
`;
    const workspace = new Workspace();
    workspace.set('file:///dark.procedure.yaml', text);
    const found = checkAlone(workspace.view('file:///dark.procedure.yaml')!);
    expect(found.map(({ rule }) => rule)).toEqual(expect.arrayContaining(['unknown-name', 'gap-between-branches']));
  });
});
