import type { ProcedureView } from '../analysis/view.ts';
import { name as quoted } from '../base/name.ts';
import { existsIn, STANDARD } from '../model/common.ts';
import { type Ending, type EndingData, endingIn, type Procedure, type Start } from '../model/procedure.ts';
import { type Branch, type Step, type StepData, stepIn } from '../model/step.ts';
import { choose, type Problem } from './choose.ts';
import type { Machine } from './question.ts';

/** A procedure as it is done on one machine. */
export interface Course extends Machine {
  readonly procedure: Procedure;
}

/** What somebody told at a step; at a repair, that it is done. */
export interface Answer {
  /** Name of the step, or of the ending that is a repair. */
  readonly at: string;
  readonly text: string;
}

/** One walk as far as it has gone. Immutable: every answer makes a new one. */
export interface Walk {
  readonly course: Course;
  readonly passed: readonly Passed[];
  readonly at: Position;
  /** The first answer that could not be taken, and those behind it are not looked at. */
  readonly refused?: { readonly answer: Answer; readonly problem: Problem };
}

export interface Passed {
  readonly from: Standing;
  readonly text: string;
  /** Absent where a repair leads on to its confirmation. */
  readonly branch?: Branch;
  readonly why: string;
}

/** A place of the procedure where somebody can stand. */
export type Standing =
  | { readonly kind: 'step'; readonly name: string; readonly step: Step; readonly data: StepData }
  | {
      readonly kind: 'ending';
      readonly name: string;
      readonly ending: Ending;
      readonly data: EndingData;
      /** The step that confirms the repair; absent where the procedure is over. */
      readonly confirm?: string;
    };

export type Position =
  | Standing
  /** A branch, or the way in, leads to something that is not there. */
  | { readonly kind: 'nowhere'; readonly name?: string; readonly problem: Problem };

/** The machines that a procedure can be walked on; one without a system where none can be read. */
export function coursesOf({ procedure, cases }: ProcedureView): readonly Course[] {
  if (cases.length === 0) return [{ procedure, variant: STANDARD }];
  return cases.map(of => ({ procedure, variant: of.variant, system: of.system, of }));
}

/** Where a walk begins for a symptom or a code; undefined where it is said nowhere. */
export function startOf(procedure: Procedure, entry: Start | undefined): string | undefined {
  return (entry?.start ?? procedure.start)?.text;
}

/** The symptom or code that the author wrote for this way in. */
export function entryNamed(procedure: Procedure, text: string | undefined): Start | undefined {
  if (text === undefined) return undefined;
  return procedure.entries.find(entry => entry.symptom?.text === text || entry.code?.text === text);
}

/** A walk that begins at this step; without one it stands nowhere, for the reason given. */
export function begin(
  course: Course,
  start: string | undefined,
  why = 'The procedure does not say where it starts',
): Walk {
  return { course, passed: [], at: start === undefined ? nowhere(undefined, why) : stand(course, start) };
}

/** The walk with one answer more. An answer that cannot be taken leaves it where it stands and says why. */
export function answer(walk: Walk, text: string): Walk {
  const { course, at } = walk;
  if (at.kind === 'nowhere') return refuse(walk, { at: at.name ?? '', text }, at.problem);
  const told = { at: at.name, text };
  if (at.kind === 'ending') {
    if (at.confirm === undefined) return refuse(walk, told, { message: `The procedure is over at ${quoted(at.name)}` });
    return goOn(walk, { from: at, text: '', why: 'the repair is done' }, stand(course, at.confirm));
  }
  const choice = choose(at.data, text, course);
  if (choice.problem) return refuse(walk, told, choice.problem);
  const { branch, why } = choice;
  const next = branch.target
    ? stand(course, branch.target.text)
    : nowhere(undefined, `The branch ${quoted(branch.key.text)} of ${quoted(at.name)} leads nowhere`);
  return goOn(walk, { from: at, text: text.trim(), branch, why }, next);
}

/** Answers in order, for as long as each is about the place where the walk stands and can be taken. */
export function follow(walk: Walk, answers: readonly Answer[]): Walk {
  let now = walk;
  for (const each of answers) {
    if (now.at.name !== each.at) {
      return refuse(now, each, { message: `The walk no longer comes to ${quoted(each.at)}` });
    }
    now = answer(now, each.text);
    if (now.refused) return now;
  }
  return now;
}

/** Where somebody stands who comes to this name. */
export function stand({ procedure, variant }: Course, name: string): Position {
  const step = procedure.steps.get(name);
  const ending = step ? undefined : procedure.endings.get(name);
  const thing = step ?? ending;
  if (!thing) return nowhere(name, `No step or ending is called ${quoted(name)}`);
  if (!existsIn(thing, variant)) return nowhere(name, `${quoted(name)} does not exist in variant ${quoted(variant)}`);
  if (step) return { kind: 'step', name, step, data: stepIn(step, variant) };
  const data = endingIn(ending!, variant);
  return { kind: 'ending', name, ending: ending!, data, confirm: data.confirm?.text };
}

function goOn({ course, passed }: Walk, step: Passed, at: Position): Walk {
  return { course, passed: [...passed, step], at };
}

function refuse({ course, passed, at }: Walk, told: Answer, problem: Problem): Walk {
  return { course, passed, at, refused: { answer: told, problem } };
}

function nowhere(name: string | undefined, message: string): Position {
  return { kind: 'nowhere', name, problem: { message, isInProcedure: true } };
}
