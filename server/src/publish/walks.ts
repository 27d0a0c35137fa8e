import { missInWords } from '../walk/miss-in-words.ts';
import type { SampleRun } from '../walk/samples.ts';

/** Sample walks that were walked, by the file they stand in. */
export interface WalkedFile {
  readonly path: string;
  readonly procedure: string;
  readonly walks: readonly Walked[];
}

/** One sample walk in one variant, as other programs read it. */
export interface Walked {
  readonly walk: string;
  readonly variant: string;
  readonly reached: boolean;
  /** The ending that the walk names. */
  readonly endsAt: string | null;
  /** The step or ending where it came to its end. */
  readonly at: string | null;
  readonly steps: readonly { readonly step: string; readonly reading: string; readonly why: string }[];
  /** Why it did not reach its ending. */
  readonly message?: string;
  readonly detail?: string;
  readonly help?: string;
}

export function walked(run: SampleRun): Walked {
  const { sample, variant, reached, walk } = run;
  const { message, detail, help } = missInWords(run) ?? {};
  return {
    walk: sample.id,
    variant,
    reached,
    endsAt: sample.endsAt?.text ?? null,
    at: walk.at.name ?? null,
    steps: walk.passed.map(({ from, text, why }) => ({ step: from.name, reading: text, why })),
    message,
    detail,
    help,
  };
}

/** The walks for other programs. `DEVELOPERS.md` describes the shape, which only grows within a version. */
export function walksAsJson(files: readonly WalkedFile[]): string {
  return `${JSON.stringify({ version: 1, files, totals: totalsOf(files) }, undefined, 2)}\n`;
}

export function totalsOf(files: readonly WalkedFile[]) {
  const all = files.flatMap(({ walks }) => walks);
  const reached = all.filter(one => one.reached).length;
  return { walks: all.length, reached, missed: all.length - reached };
}
