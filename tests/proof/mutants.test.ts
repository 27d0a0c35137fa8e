import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { workspaceOf } from '../support/workspace.ts';
import { inWords, tryMutants } from './mutants/try.ts';

/** Every mutant of every example with `MUTANTS=all`; else some of those of one procedure. */
const isAll = process.env.MUTANTS === 'all';
const folder = new URL('../../examples/', import.meta.url);
const examples = ['generator', 'loader', 'workboat'].flatMap(machine =>
  readdirSync(new URL(`${machine}/`, folder)).flatMap(name =>
    name.endsWith('.procedure.yaml') ? [[machine, name] as const] : [],
  ),
);
const tried = isAll ? examples : examples.filter(([, name]) => name.startsWith('battery-flat'));

/** Files of one machine; samples are left out, for they would find most mistakes by themselves. */
function filesOf(machine: string): readonly (readonly [string, string])[] {
  const here = new URL(`${machine}/`, folder);
  return readdirSync(here)
    .filter(name => !name.endsWith('.samples.yaml'))
    .map(name => [`file:///project/${name}`, readFileSync(new URL(name, here), 'utf8')] as const);
}

describe.each(tried)('mistakes in examples/%s/%s', { timeout: 3_600_000 }, (machine, name) => {
  it('are found', () => {
    const every = isAll ? 1 : 8;
    const mutants = tryMutants(workspaceOf(filesOf(machine)), `file:///project/${name}`, (_, i) => i % every === 0);
    console.info(inWords(name, mutants));
    expect(new Set(mutants.map(({ kind }) => kind)).size).toBe(4);
    expect(mutants.filter(({ by }) => by.length > 0).length).toBeGreaterThan(mutants.length / 2);
    // What survives is no mistake: every machine goes the same ways, or other ones to as right an end.
    expect(mutants.filter(({ alike }) => alike === 'worse').map(({ what }) => what)).toEqual([]);
  });
});
