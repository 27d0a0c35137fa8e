import type { SamplesView } from '../../analysis/view.ts';
import type { SampleWalk } from '../../model/samples.ts';
import { missInWords } from '../../walk/miss-in-words.ts';
import { runSample, type SampleRun } from '../../walk/samples.ts';

/**
 * Every walk that can be walked, with a run for each variant that it is about. A walk with a name that nothing has is left out, as
 * another rule says so; so are all walks while the procedure could not be understood, and those that show a mistake which is told there.
 */
export function runsOf({
  samples,
  procedure: view,
}: SamplesView): readonly (readonly [SampleWalk, readonly SampleRun[]])[] {
  if (!view || view.tree.problems.length > 0 || view.procedure.problems.length > 0) return [];
  const { endings, entries } = view.procedure;
  const waysIn = entries.flatMap(({ symptom, code }) => [symptom?.text, code?.text]);
  return samples.walks.flatMap(sample => {
    const { startsFrom, endsAt } = sample;
    if (!endsAt || !endings.has(endsAt.text)) return [];
    if (startsFrom && !waysIn.includes(startsFrom.text)) return [];
    const runs = runSample(view, sample);
    return runs.some(run => missInWords(run)?.isInProcedure) ? [] : [[sample, runs] as const];
  });
}
