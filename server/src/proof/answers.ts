import type { Effect } from '../analysis/effect.ts';
import type { Situation } from '../analysis/situation.ts';
import { holds } from '../analysis/test.ts';
import type { PartValue } from '../circuit/reading.ts';
import type { Branch, StepData } from '../model/step.ts';
import { areNamed } from './natures.ts';
import type { Outcome, Outcomes } from './outcome.ts';
import { noAnswer, stuck } from './outcome.ts';
import type { Patient } from './patient.ts';
import { signHolds, statesShown } from './signs.ts';

/**
 * What somebody sees, hears or tells. An answer that shows this fault, or whose test holds on the machine, is given; one that has neither is
 * given where no other surely is. An inspection surely finds what only eyes can find; of a fault in a circuit it may find the cause.
 */
export function byAnswer(patient: Patient, data: StepData, now: Situation, effect: Effect | undefined): Outcomes {
  const certain: Branch[] = [];
  const possible: Branch[] = [];
  const rest: Branch[] = [];
  let isByValues = false;
  for (const branch of data.branches) {
    const verdict = verdictOf(branch, patient, data, now, effect);
    if (verdict === 'some') isByValues = true;
    if (verdict === 'yes') certain.push(branch);
    else if (verdict === 'maybe' || verdict === 'some') possible.push(branch);
    else if (verdict === 'open') rest.push(branch);
  }
  const given = certain.length > 0 ? [...certain, ...possible] : [...possible, ...rest];
  const taken = given.length > 0 ? given : data.branches.filter(b => b.match.on === 'otherwise');
  if (taken.length === 0) return stuck(noAnswer);
  const shown = (name: string) => statesShown(name, patient.circuit, now, effect);
  const isAnswered = !isByValues || certain.length + rest.length > 0 || alwaysFit(possible, shown);
  const answered: readonly (Branch | undefined)[] = isAnswered ? taken : [...taken, undefined];
  const whyOf = (branch: Branch | undefined): Outcome['why'] => {
    if (answered.length === 1) return 'certain';
    if (isByValues) return 'tolerance';
    // Of several answers that say nothing of who gives them, none is known to be given.
    return rest.length > 1 && branch && rest.includes(branch) ? 'open' : 'either';
  };
  const outcomes = answered.map(branch => ({ branch, text: branch?.key.text ?? '', why: whyOf(branch) }));
  const isDecided = answered.length > 1 && isByValues;
  const ends = isDecided ? endsBehind(possible, patient, now, effect) : [];
  return { kind: 'leads on', outcomes, ends };
}

/** The values behind both ends of the scan data that these answers speak of. */
function endsBehind(
  branches: readonly Branch[],
  { circuit }: Patient,
  now: Situation,
  effect: Effect | undefined,
): readonly (readonly PartValue[])[] {
  return namesIn(branches).flatMap(name => {
    const named = circuit.datumNamed(name);
    const volts = named && circuit.scanVoltage(named.module, named.datum, now, effect);
    return volts?.state === 'number' ? [volts.lowAt, volts.highAt] : [];
  });
}

function namesIn(branches: readonly Branch[]): readonly string[] {
  return [...new Set(branches.flatMap(({ when = [] }) => when.flat().map(({ name }) => name.text)))];
}

/** Whether one of the answers is given whatever comes together of the states that the tolerances leave open. */
function alwaysFit(possible: readonly Branch[], shown: (name: string) => readonly string[]): boolean {
  let together: ReadonlyMap<string, string>[] = [new Map()];
  for (const name of namesIn(possible)) {
    const states = shown(name);
    if (states.length > 0) together = together.flatMap(one => states.map(state => new Map([...one, [name, state]])));
  }
  const fits = (one: ReadonlyMap<string, string>) => (name: string) => (one.has(name) ? [one.get(name)!] : []);
  return together.every(one => possible.some(({ when }) => when && holds(when, fits(one)) === true));
}

/** `maybe`: it depends on who looks. `some`: it depends on the values of the machine. */
function verdictOf(
  { shows, when, match }: Branch,
  { all, faults, nature, circuit }: Patient,
  { action }: StepData,
  now: Situation,
  effect: Effect | undefined,
): 'yes' | 'no' | 'maybe' | 'some' | 'open' {
  if (match.on === 'otherwise') return 'open';
  if (shows.length > 0 && areNamed(faults, all, shows)) {
    const isHidden = faults.some(({ changes }) => changes.length > 0);
    return isHidden && (action.verb === 'inspect' || nature === 'intermittent') ? 'maybe' : 'yes';
  }
  if (when) {
    const verdict = signHolds(when, circuit, now, effect);
    return verdict === undefined ? 'some' : verdict ? 'yes' : 'no';
  }
  return shows.length > 0 ? 'no' : 'open';
}
