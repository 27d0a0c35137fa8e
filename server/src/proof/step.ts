import type { Effect } from '../analysis/effect.ts';
import type { Circuit, MeterReading } from '../analysis/electrical.ts';
import { follow } from '../analysis/make-flow.ts';
import { type Situation, stateOf } from '../analysis/situation.ts';
import { holds } from '../analysis/test.ts';
import { whyNoNumber } from '../analysis/words/reading.ts';
import { name } from '../base/name.ts';
import type { Action, StepData } from '../model/step.ts';
import { type Question, questionOf } from '../walk/question.ts';
import { byAnswer } from './answers.ts';
import { isProvoked } from './natures.ts';
import { byNumber, shownAlways } from './numbers.ts';
import { certain, type Outcome, type Outcomes, stuck } from './outcome.ts';
import type { Patient } from './patient.ts';
import { byRecording } from './recordings.ts';

/** What holds on the machine when somebody comes to a step. */
export interface Moment {
  readonly situation: Situation;
  /** Fuses and breakers that have gone. */
  readonly blown: readonly string[];
}

export interface Done {
  readonly after: Moment;
  readonly outcomes: Outcomes;
}

/** Does a step on a machine. */
export function doStep(patient: Patient, data: StepData, before: Moment): Done {
  const { circuit, faults, nature } = patient;
  const { needs, action, branches } = data;
  const isAlways = faults.length > 0 && nature === 'hard';
  const isPresent = isAlways || isFelt(patient, data);
  const now = follow(data, before.situation, circuit, patient.effect(isAlways, before.blown));
  const blown = withBlown(patient, now, isPresent, before.blown);
  const after: Moment = { situation: now, blown };
  if (needs && holds(needs, of => stateOf(before.situation, of)) === false) {
    return { after, outcomes: stuck('What it needs does not hold') };
  }
  const [first] = branches;
  if (!first) return { after, outcomes: stuck('It does not say what comes next') };
  const outcomes = (): Outcomes => {
    const question = questionOf(data, patient.course);
    if (question.ask === 'nothing') return certain(first, '');
    if (action.verb === 'record') return byRecording(patient, data, action, now, [before.blown, blown]);
    const effect = patient.effect(isPresent, blown);
    if (action.verb === 'measure') return measured(patient, data, action, question, now, effect);
    if (action.verb === 'read') return scanned(patient, data, action, question, now, effect);
    return byAnswer(patient, data, now, effect);
  };
  return { after, outcomes: outcomes() };
}

/** Whether a fault that comes and goes is there at a step. A code is stored and a memory kept after it has gone. */
function isFelt({ faults, all }: Patient, step: StepData): boolean {
  if (faults.length === 0) return false;
  return step.action.verb === 'record' || step.action.verb === 'ask' || isProvoked(faults, all, step);
}

/** Fuses that go in this situation, with those that have gone before. */
export function withBlown(
  { circuit, faults, effect }: Patient,
  now: Situation,
  isPresent: boolean,
  blown: readonly string[],
): readonly string[] {
  const on = isPresent && faults.length > 0 ? effect(true, blown) : undefined;
  if (!on) return blown;
  const more = circuit.blown(now, on).filter(fuse => !blown.includes(fuse));
  return more.length === 0 ? blown : [...blown, ...more].sort();
}

type Measure = Extract<Action, { verb: 'measure' }>;
type Read = Extract<Action, { verb: 'read' }>;

function measured(
  patient: Patient,
  data: StepData,
  action: Measure,
  question: Question,
  now: Situation,
  effect: Effect | undefined,
): Outcomes {
  const { meter } = patient.course.procedure;
  const reading = patient.circuit.read(action, meter, now, effect);
  if (question.ask !== 'number') return byWord(data, reading);
  return ofReading(patient, data, reading, question, true);
}

/** What a lamp or a sound tells. */
function byWord({ branches }: StepData, reading: MeterReading): Outcomes {
  const shows = ('shows' in reading && reading.shows) || (reading.state === 'floating' ? ['dark'] : undefined);
  if (!shows) return noNumber(reading);
  const outcomes = shows.map((text): Outcome => {
    const branch = branches.find(b => b.key.text === text) ?? branches.find(b => b.match.on === 'otherwise');
    return { branch, text, why: shows.length === 1 ? 'certain' : 'tolerance' };
  });
  return {
    kind: 'leads on',
    outcomes: distinct(outcomes),
    ends: reading.state === 'number' ? [reading.lowAt, reading.highAt] : [],
  };
}

function ofReading(
  { course: { procedure } }: Patient,
  { branches }: StepData,
  reading: MeterReading,
  { dimension, limit }: Question & { ask: 'number' },
  isMetered: boolean,
): Outcomes {
  const of = (shown: Parameters<typeof byNumber>[2]) =>
    byNumber(branches, limit, shown, dimension, procedure.meter, isMetered);
  if (reading.state === 'number') return of(reading);
  if (reading.state === 'over limit') return of(shownAlways(Infinity));
  // A voltmeter pulls what hangs on nothing down to its other lead.
  if (reading.state === 'floating') return of(shownAlways(dimension === 'resistance' ? Infinity : 0));
  return noNumber(reading);
}

function noNumber(reading: MeterReading): Outcomes {
  const why = whyNoNumber(reading);
  if (reading.state === 'live') return stuck(why || 'The circuit is live');
  if (reading.state === 'no contact') return stuck(why || 'The lead cannot be put there');
  return { kind: 'unknown', why };
}

function scanned(
  patient: Patient,
  data: StepData,
  { module, datum, expect }: Read,
  question: Question,
  now: Situation,
  effect: Effect | undefined,
): Outcomes {
  const { circuit } = patient;
  if (!module || !datum) return { kind: 'unknown', why: 'It does not say what is read' };
  if (question.ask === 'number') {
    const reading = circuit.scanVoltage(module.text, datum.text, now, effect);
    return reading
      ? ofReading(patient, data, reading, question, false)
      : { kind: 'unknown', why: notTold(module.text, datum.text) };
  }
  const states = circuit.scanStates(module.text, datum.text, now, effect);
  if (states.length === 0) return { kind: 'unknown', why: notTold(module.text, datum.text) };
  const outcomes = states.map((state): Outcome => {
    const isExpected = expect?.some(({ text }) => text === state);
    const named = data.branches.find(b => b.key.text === state);
    const within = isExpected ? data.branches.find(b => b.match.on === 'within') : undefined;
    const branch = named ?? within ?? data.branches.find(b => b.match.on === 'otherwise');
    return { branch, text: state, why: states.length === 1 ? 'certain' : 'tolerance' };
  });
  return {
    kind: 'leads on',
    outcomes: distinct(outcomes),
    ends: endsOf(circuit, module.text, datum.text, now, effect),
  };
}

function notTold(module: string, datum: string): string {
  return `What ${name(`${module} ${datum}`)} shows is not computed`;
}

function endsOf(circuit: Circuit, ...asked: Parameters<Circuit['scanVoltage']>) {
  const volts = circuit.scanVoltage(...asked);
  return volts?.state === 'number' ? [volts.lowAt, volts.highAt] : [];
}

/** One for each branch; of several that take it the first, which is that at nominal values. */
function distinct(outcomes: readonly Outcome[]): readonly Outcome[] {
  const found = outcomes.filter((one, i) => outcomes.findIndex(other => other.branch === one.branch) === i);
  return found.length === 1 ? found.map(one => ({ ...one, why: 'certain' })) : found;
}
