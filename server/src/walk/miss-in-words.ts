import { name } from '../base/name.ts';
import type { Problem } from './choose.ts';
import type { SampleRun } from './samples.ts';

/** Why a sample walk did not reach its ending; undefined where it did. */
export function missInWords({ sample, walk, miss }: SampleRun): Problem | undefined {
  const wanted = sample.endsAt ? name(sample.endsAt.text) : 'an ending';
  const because = lastReason(walk.passed);
  switch (miss?.kind) {
    case undefined:
      return undefined;
    case 'elsewhere': {
      const help = 'Correct a reading or a branch, or name the ending that is reached.';
      return { message: `The walk ends at ${name(miss.ending)}, not at ${wanted}`, detail: because, help };
    }
    case 'no reading':
      return {
        message: `The walk stops at ${name(miss.step)}, for which it has no reading`,
        detail: because,
        help: `Add what is read at ${name(miss.step)}.`,
      };
    case 'refused':
      return {
        ...miss.problem,
        detail: [`The walk stops at ${name(miss.step)}.`, miss.problem.detail ?? ''].join(' ').trim(),
      };
    case 'loop':
      return {
        message: `The walk comes to ${name(miss.step)} a second time`,
        detail: because,
        help: 'Give readings that lead on, or correct the branch.',
      };
    case 'nowhere':
      return { ...miss.problem, detail: because };
  }
}

function lastReason(passed: SampleRun['walk']['passed']): string | undefined {
  const last = passed.findLast(p => p.why !== '');
  return last && `It comes there from ${name(last.from.name)}, where ${last.why}.`;
}
