import type { TimeSpent } from '../planning/compare.ts';
import type { Drafted } from '../planning/draft/draft.ts';
import { harmless } from './paint.ts';

/** What is to be said about a draft, beside its text. */
export function draftedAsText({ suspects, minutes, lowerBound, optimal }: Drafted): string {
  const order = optimal
    ? 'no order of these tests takes fewer'
    : `no order of these tests takes fewer than ${rounded(lowerBound)}`;
  return `${suspects} faults show this complaint. Its tests take ${rounded(minutes)} minutes on average; ${order}.\nRead it through before it is used: local codes and the instructions of the maker come first.\n`;
}

/** The minutes of a procedure beside those of a draft, and where they go. */
export function comparedAsText(file: string, { meanMinutes, steps, walks }: TimeSpent, drafted: number): string {
  const lines = steps
    .slice(0, 5)
    .map(
      ({ step, minutes, reached }) =>
        `  ${rounded(minutes)} min at ${step}, done in ${Math.round(reached * 100)} % of the walks`,
    );
  return `${harmless(file)} takes ${rounded(meanMinutes)} minutes on average over ${walks} faults, looking and trying included; the tests of the draft ${rounded(drafted)}.\nMost of it goes to:\n${lines.map(harmless).join('\n')}\n`;
}

function rounded(value: number): string {
  return String(Math.round(value * 10) / 10);
}
