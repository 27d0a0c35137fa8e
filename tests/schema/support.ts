import * as fs from 'node:fs';
import { Ajv2020, type ValidateFunction } from 'ajv/dist/2020.js';
import { parse as parseYaml } from 'yaml';
import { checkFile } from '../../server/src/schema/check.ts';
import type { ShapeProblem } from '../../server/src/schema/problem.ts';
import type { FileKind } from '../../server/src/schema/root.ts';
import { parse } from '../../server/src/syntax/parse.ts';

export const kinds: readonly FileKind[] = ['system', 'procedure', 'samples'];

/** The three files that the page for contributors shows. */
export const shown = Object.fromEntries(
  [...fs.readFileSync('DEVELOPERS.md', 'utf8').matchAll(/^```yaml\n([\s\S]*?)^```/gm)].map((found, i) => [
    kinds[i],
    found[1],
  ]),
) as Record<FileKind, string>;

export function schemaOf(kind: FileKind): Record<string, unknown> {
  return JSON.parse(fs.readFileSync(`schemas/${kind}.schema.json`, 'utf8'));
}

const validators = new Map<FileKind, ValidateFunction>();

/** A general-purpose validator, to which our own keywords mean nothing. */
export function validator(kind: FileKind): ValidateFunction {
  const before = validators.get(kind);
  if (before) return before;
  const fresh = new Ajv2020({ strict: false }).compile(schemaOf(kind));
  validators.set(kind, fresh);
  return fresh;
}

/** Whether a general-purpose validator takes the text as a general-purpose YAML reader reads it. */
export function isTakenByValidator(kind: FileKind, text: string): boolean {
  return validator(kind)(parseYaml(text));
}

export function problemsIn(kind: FileKind, text: string): readonly ShapeProblem[] {
  return checkFile(kind, parse(text));
}

/** What a problem points at. */
export function tokenOf({ span }: ShapeProblem): string {
  return span.unit.text.slice(span.start, span.end);
}
