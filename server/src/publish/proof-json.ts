import type { Coverage } from '../proof/coverage.ts';
import type { PairsWalked } from '../proof/pairs.ts';
import { isBad } from '../proof/walk-fault.ts';

/** A procedure with what became of every fault in it. */
export interface ProvedFile {
  readonly path: string;
  /** By variant; the path of the system file stands in place of its uri. */
  readonly coverage: readonly Coverage[];
  /** By variant: machines with two faults, where they were asked for. */
  readonly pairs?: readonly (Omit<PairsWalked, 'of'> & { readonly variant: string })[];
}

/** The walks for other programs. `DEVELOPERS.md` describes the shape, which only grows within a version. */
export function proofAsJson(files: readonly ProvedFile[]): string {
  return `${JSON.stringify({ version: 1, procedures: files }, undefined, 2)}\n`;
}

/** Whether every walk of every file comes to a good end. */
export function isClean(files: readonly ProvedFile[]): boolean {
  return files.every(({ coverage }) => coverage.every(({ walks }) => walks.every(({ result }) => !isBad(result))));
}
