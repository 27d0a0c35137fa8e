import type { ProcedureView } from '../../analysis/view.ts';
import type { SampleWalk } from '../../model/samples.ts';
import type { Played } from '../../protocol/preview.ts';
import { missInWords } from '../../walk/miss-in-words.ts';
import { missAt, nextAnswer, runOn } from '../../walk/samples.ts';
import type { Course, Walk } from '../../walk/walk.ts';
import type { Project } from '../project.ts';

/** A sample walk of the procedure, from whichever file keeps it. */
export interface FoundSample {
  readonly id: string;
  readonly label: string;
  readonly walk: SampleWalk;
}

export function samplesFor(project: Project, { uri }: ProcedureView): readonly FoundSample[] {
  return project.uris().flatMap(other => {
    const view = /\.samples\.ya?ml$/i.test(other) ? project.view(other) : undefined;
    if (view?.kind !== 'samples' || view.of !== uri) return [];
    return view.samples.walks.map(walk => ({ id: `${other}#${walk.id}`, label: walk.id, walk }));
  });
}

export function playToEnd(course: Course, sample: SampleWalk): Walk {
  return runOn(course, sample).walk;
}

/** What the sample says next, and once it has nothing more to say, whether it came to its ending. */
export function playedOf(walk: Walk, sample: SampleWalk): Played {
  const expected = sample.endsAt?.text ?? '';
  // A walk may go on from a repair to its confirmation; it has reached its ending all the same.
  const standings = [...walk.passed.map(({ from }) => from), walk.at];
  const isThere = standings.some(({ kind, name }) => kind === 'ending' && name === expected);
  const next = isThere || walk.refused ? undefined : nextAnswer(walk, sample);
  const played = { name: sample.id, expected };
  if (next !== undefined) return { ...played, next };
  if (isThere) return { ...played, verdict: { reached: true, message: `Reached its ending \`${expected}\`` } };
  const miss = missAt(walk, sample, new Set());
  const { message, detail } = missInWords({ sample, variant: walk.course.variant, walk, reached: false, miss })!;
  return { ...played, verdict: { reached: false, message, detail } };
}
