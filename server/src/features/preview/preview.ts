import type { ProcedureView } from '../../analysis/view.ts';
import { name as quoted } from '../../base/name.ts';
import type { HistoryEntry, PreviewParams, PreviewState, Refusal } from '../../protocol/preview.ts';
import { begin, type Course, follow, type Passed, startOf, type Walk } from '../../walk/walk.ts';
import type { Project } from '../project.ts';
import { courseNamed, idOf, startOptions, textOf, variantOptions, wayIn } from './options.ts';
import { playedOf, playToEnd, samplesFor } from './sample.ts';
import { cautionsIn } from './sheet.ts';
import { shownSheet } from './shown.ts';
import { standingTitle } from './titles.ts';

/** What the preview of a procedure shows for a walk; the walk in it is as long as the procedure can still follow it. */
export function preview(
  project: Project,
  view: ProcedureView,
  { walk: wanted, playToEnd: isToEnd }: Omit<PreviewParams, 'textDocument'>,
): PreviewState {
  const { procedure } = view;
  const samples = samplesFor(project, view);
  const sample = samples.find(one => one.id === wanted.sample);
  const course = courseNamed(view, wanted.variant, sample?.walk);
  const entry = wayIn(procedure, wanted.start, sample?.walk);
  const step = wanted.from !== undefined && procedure.steps.has(wanted.from) ? wanted.from : undefined;
  const walk =
    isToEnd && sample
      ? playToEnd(course, sample.walk)
      : follow(begin(course, step ?? startOf(procedure, entry)), wanted.answers);
  const first = step === undefined ? undefined : course.of?.flow.arriving(step)[0];
  const sheet = shownSheet(walk, wanted.shown, first);
  const atHand = walk.at.name ?? '';
  return {
    title: procedure.title ?? procedure.id?.text ?? 'Procedure',
    walk: {
      variant: idOf(course),
      start: textOf(entry),
      from: step,
      sample: sample?.id,
      answers: walk.passed.map(({ from, text }) => ({ at: from.name, text })),
      shown: sheet.isAtHand ? undefined : sheet.name,
    },
    variants: variantOptions(view, course),
    starts: startOptions(procedure, entry, step),
    samples: samples.map(({ id, label }) => ({ id, label, chosen: id === sample?.id })),
    cautions: cautionsIn(procedure.cautions, course.variant),
    tools: procedure.tools.map(({ text }) => text),
    history: walk.passed.map(passed => historyEntry(course, passed)),
    sheet,
    atHand: { name: atHand, title: standingTitle(procedure, course.variant, atHand) },
    refused: refusal(walk),
    played: sample && playedOf(walk, sample.walk),
    said: said(walk),
  };
}

function historyEntry({ procedure, variant }: Course, { from, text, why, branch }: Passed): HistoryEntry {
  // The reading stands beside it already, and an answer is its own reason.
  const isReading = branch && branch.match.on !== 'answer';
  const reason = isReading ? why.replace(/^`[^`]*` is /, '') : '';
  return { name: from.name, title: standingTitle(procedure, variant, from.name), text, why: reason };
}

function refusal({ refused }: Walk): Refusal | undefined {
  return refused && { text: refused.answer.text, ...refused.problem };
}

function said({ passed, at, refused }: Walk): string {
  if (refused) return refused.problem.message;
  const why = passed.at(-1)?.why;
  const to = at.kind === 'ending' ? 'The ending is' : 'On to';
  const where = at.kind === 'nowhere' ? at.problem.message : `${to} ${quoted(at.name)}`;
  return why ? `${why.charAt(0).toUpperCase()}${why.slice(1)}. ${where}` : where;
}
