import type { ProcedureView } from '../analysis/view.ts';
import { name } from '../base/name.ts';
import type { SampleWalk } from '../model/samples.ts';
import { stepIn } from '../model/step.ts';
import type { Problem } from './choose.ts';
import { questionOf } from './question.ts';
import { answer, begin, type Course, coursesOf, entryNamed, type Standing, startOf, type Walk } from './walk.ts';

/** A sample walk, walked on one machine. */
export interface SampleRun {
  readonly sample: SampleWalk;
  readonly variant: string;
  readonly walk: Walk;
  /** It reached the ending that it names. */
  readonly reached: boolean;
  /** Why it did not. */
  readonly miss?: Miss;
}

export type Miss =
  /** Another ending is reached. */
  | { readonly kind: 'elsewhere'; readonly ending: string }
  /** The step asks for something that the sample does not say. */
  | { readonly kind: 'no reading'; readonly step: string }
  | { readonly kind: 'refused'; readonly step: string; readonly reading: string; readonly problem: Problem }
  /** The walk comes back to a step, and the sample has one reading for each. */
  | { readonly kind: 'loop'; readonly step: string }
  | { readonly kind: 'nowhere'; readonly problem: Problem };

/** One run for each machine that the sample is about: its variant, or every one where it names none. */
export function runSample(view: ProcedureView, sample: SampleWalk): readonly SampleRun[] {
  const { variant } = sample;
  const courses = coursesOf(view).filter(course => variant === undefined || course.variant === variant.text);
  return courses.map(course => runOn(course, sample));
}

/** Walks to the end, or as far as the readings lead. */
export function runOn(course: Course, sample: SampleWalk): SampleRun {
  const { variant } = course;
  let walk = beginSample(course, sample);
  const met = new Set<string>();
  for (;;) {
    const { at } = walk;
    const miss = missAt(walk, sample, met);
    if (miss) return { sample, variant, walk, reached: false, miss };
    if (at.kind === 'ending' && at.name === sample.endsAt?.text) return { sample, variant, walk, reached: true };
    met.add(at.name!);
    walk = answer(walk, nextAnswer(walk, sample)!);
  }
}

/** What the sample says where the walk stands: a reading, nothing for an instruction, undefined where it has nothing to say. */
export function nextAnswer({ course, at }: Walk, sample: SampleWalk): string | undefined {
  if (at.kind === 'nowhere') return undefined;
  if (at.kind === 'step') {
    const isAsked = questionOf(at.data, course).ask !== 'nothing';
    return sample.readings.get(at.name)?.reading.text ?? (isAsked ? undefined : '');
  }
  // A repair is gone beyond only for the sake of a reading behind it.
  const goesOn = at.confirm !== undefined && at.name !== sample.endsAt?.text;
  return goesOn && sample.readings.has(firstAsking(course, at.confirm)) ? '' : undefined;
}

function beginSample(course: Course, { startsFrom }: SampleWalk): Walk {
  const { procedure } = course;
  if (!startsFrom) return begin(course, startOf(procedure, procedure.entries[0]));
  const entry = entryNamed(procedure, startsFrom.text);
  const start = entry && startOf(procedure, entry);
  return begin(course, start, `The procedure does not start from ${name(startsFrom.text)}`);
}

/** From a step past the instructions that lead on by themselves. */
function firstAsking(course: Course, from: string): string {
  const { procedure, variant } = course;
  const met = new Set<string>();
  for (let at = from; ; ) {
    const step = procedure.steps.get(at);
    const data = step && stepIn(step, variant);
    const next = data?.branches[0]?.target?.text;
    if (!data || next === undefined || met.has(at) || questionOf(data, course).ask !== 'nothing') return at;
    met.add(at);
    at = next;
  }
}

/** Why a walk that has come so far does not reach the ending of the sample; undefined where it is there, or can go on. */
export function missAt(walk: Walk, sample: SampleWalk, met: ReadonlySet<string>): Miss | undefined {
  const { at, refused } = walk;
  if (at.kind === 'nowhere') return { kind: 'nowhere', problem: at.problem };
  if (refused) return { kind: 'refused', step: at.name, reading: refused.answer.text, problem: refused.problem };
  if (met.has(at.name)) return { kind: 'loop', step: at.name };
  if (at.kind === 'ending' && at.name === sample.endsAt?.text) return undefined;
  if (nextAnswer(walk, sample) !== undefined) return undefined;
  return at.kind === 'ending' ? { kind: 'elsewhere', ending: at.name } : { kind: 'no reading', step: at.name };
}

/** Steps that the sample has a reading for and that the walk did not come to. */
export function unusedReadings({ sample, walk }: SampleRun): readonly string[] {
  const asked = new Set(stepsOf(walk));
  return [...sample.readings.keys()].filter(step => !asked.has(step));
}

function stepsOf({ passed, at }: Walk): readonly string[] {
  const standings: Standing[] = passed.map(p => p.from);
  return [...standings, ...(at.kind === 'nowhere' ? [] : [at])].map(s => s.name);
}
