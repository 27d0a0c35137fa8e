import type { ProcedureView } from '../../analysis/view.ts';
import { name as quoted } from '../../base/name.ts';
import type { HistoryEntry, PreviewParams, PreviewState, PreviewWalk, Refusal } from '../../protocol/preview.ts';
import { type Arrival, arrivalOf } from '../../walk/situations.ts';
import { begin, type Course, coursesOf, entryNamed, follow, startOf, type Walk } from '../../walk/walk.ts';
import type { Project } from '../project.ts';
import { playedOf, playToEnd, samplesFor } from './sample.ts';
import { cautionsIn, sheetOf, standingNamed } from './sheet.ts';
import { standingTitle } from './titles.ts';

/** What the preview of a procedure shows for a walk; the walk in it is as long as the procedure can still follow it. */
export function preview(
  project: Project,
  view: ProcedureView,
  params: Omit<PreviewParams, 'textDocument'>,
): PreviewState {
  const { procedure } = view;
  const wanted = params.walk;
  const samples = samplesFor(project, view);
  const sample = samples.find(one => one.id === wanted.sample);
  const courses = coursesOf(view);
  const course =
    courses.find(one => idOf(one) === wanted.variant) ??
    courses.find(one => one.variant === sample?.walk.variant?.text) ??
    courses[0]!;
  const entry = entryNamed(procedure, wanted.start ?? sample?.walk.startsFrom?.text) ?? procedure.entries[0];
  const from = wanted.from !== undefined && procedure.steps.has(wanted.from) ? wanted.from : undefined;
  const started = begin(course, from ?? startOf(procedure, entry));
  const walk = params.playToEnd && sample ? playToEnd(course, sample.walk) : follow(started, wanted.answers);
  const first = from === undefined ? undefined : course.of?.flow.arriving(from)[0];
  const shown = shownIn(walk, wanted.shown, first);
  return {
    title: procedure.title ?? procedure.id?.text ?? 'Procedure',
    walk: {
      variant: idOf(course),
      start: entry?.symptom?.text ?? entry?.code?.text,
      from,
      sample: sample?.id,
      answers: walk.passed.map(({ from, text }) => ({ at: from.name, text })),
      shown: shown.isAtHand ? undefined : shown.name,
    },
    variants: courses.map(one => ({ id: idOf(one), label: labelOf(one, courses), chosen: one === course })),
    starts: startOptions(view, entry, from),
    samples: samples.map(({ id, label }) => ({ id, label, chosen: id === sample?.id })),
    cautions: cautionsIn(procedure.cautions, course.variant),
    tools: procedure.tools.map(({ text }) => text),
    history: walk.passed.map(passed => historyEntry(course, passed)),
    sheet: shown,
    atHand: { name: walk.at.name ?? '', title: standingTitle(procedure, course.variant, walk.at.name ?? '') },
    refused: refusal(walk),
    played: sample && playedOf(walk, sample.walk),
    said: said(walk),
  };
}

/** One variant of one system. */
function idOf({ of, variant }: Course): string {
  return of ? `${of.view.uri}#${variant}` : variant;
}

function labelOf({ system, variant }: Course, all: readonly Course[]): string {
  const title = system?.variantDecls.get(variant)?.title ?? (all.length === 1 ? system?.title : undefined) ?? variant;
  const several = new Set(all.map(one => one.system)).size > 1;
  return several ? `${system?.title ?? ''}: ${title}` : title;
}

function startOptions({ procedure }: ProcedureView, entry: unknown, from: string | undefined) {
  const entries = procedure.entries.flatMap(one => {
    const text = one.symptom?.text ?? one.code?.text;
    if (text === undefined) return [];
    return [{ id: text, label: one.symptom ? text : `code ${text}`, chosen: from === undefined && one === entry }];
  });
  return from === undefined ? entries : [...entries, { id: '', label: `step ${from}`, chosen: true }];
}

/** The step at hand, or another one that somebody looks at: as the walk came to it, else as it can be come to. */
function shownIn(
  walk: Walk,
  name: string | undefined,
  first: ReturnType<NonNullable<Course['of']>['flow']['arriving']>[0] | undefined,
) {
  const { course, passed, at } = walk;
  const other = name === undefined || name === at.name ? undefined : standingNamed(course, name);
  if (!other) return sheetOf(course, at, arrivalOf(walk, first), true);
  const index = passed.findLastIndex(p => p.from.name === name);
  if (index >= 0)
    return sheetOf(course, other, arrivalOf({ ...walk, passed: passed.slice(0, index), at: other }, first), false);
  return sheetOf(course, other, arrivalWithoutWalk(course, other.name, other.data), false);
}

function arrivalWithoutWalk(
  { of }: Course,
  name: string,
  data: Parameters<NonNullable<Course['of']>['after']>[0],
): Arrival | undefined {
  if (!of) return undefined;
  const before = of.flow.arriving(name)[0] ?? of.flow.atEnding(name)[0] ?? of.circuit.rest;
  return { before, after: of.after(data, before) };
}

function historyEntry(
  { procedure, variant }: Course,
  { from, text, why, branch }: Walk['passed'][number],
): HistoryEntry {
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
  const last = passed.at(-1);
  const where =
    at.kind === 'nowhere'
      ? at.problem.message
      : `${at.kind === 'ending' ? 'The ending is' : 'On to'} ${quoted(at.name)}`;
  return last?.why ? `${last.why.charAt(0).toUpperCase()}${last.why.slice(1)}. ${where}` : where;
}

export type { PreviewWalk };
