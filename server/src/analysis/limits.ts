import type { Dimension } from '../base/quantity/dimension.ts';
import type { Limit } from '../base/quantity/limit.ts';
import { existsIn } from '../model/common.ts';
import { handheldMeter, type Meter } from '../model/meter.ts';
import { dimensionOf } from '../model/read-step.ts';
import { rowOf } from '../model/specification.ts';
import type { Action, StepData } from '../model/step.ts';
import type { Specification, SpecificationRow } from '../model/system.ts';
import type { Circuit, MeterReading, NumberReading } from './electrical.ts';
import { limitAround } from './limit-around.ts';
import { rangeInWords, readingAt, situationsAt } from './readings.ts';
import type { Situation } from './situation.ts';
import type { Case } from './view.ts';
import { whyNoNumber } from './words/reading.ts';

/** What is known of the limits of a step, or of a row of a specification table, in one variant. */
export type Limits =
  | { readonly state: 'known'; readonly limit: Limit; readonly isDerived: boolean }
  /** The author says nothing, or what could not be read; or the row that is named is not there. */
  | { readonly state: 'none' }
  | NotDerived;

/** The author leaves them to the circuit, and it gives no range. */
export interface NotDerived {
  readonly state: 'not derived';
  /** A sentence without its full stop. */
  readonly why: string;
  /** What the circuit gives instead of a number; absent where nothing is read at all. */
  readonly reading?: MeterReading;
  /** On another path to the step it does give a number. */
  readonly dependsOnPath?: boolean;
}

/**
 * What a good machine shows at a step: its own limits, else those of the row that it names, as they are written or as the circuit
 * gives them. Without a case (no system can be read) typed limits alone are known. Kept for as long as the case is.
 */
export function limitsOf(data: StepData, one: Case | undefined): Limits {
  const { action } = data;
  if (action.verb !== 'measure' && action.verb !== 'read') return none;
  const { limits } = action;
  if (limits?.limit) return typed(limits.limit);
  if (!one) return limits ? notDerived('No system file can be read for this procedure') : none;
  const ofCase = known.get(one) ?? new Map<StepData, Limits>();
  known.set(one, ofCase);
  const before = ofCase.get(data);
  if (before) return before;
  const fresh = limits ? derivedAt(data, one, limits.marginRatio) : limitsOfRowNamed(action, one);
  ofCase.set(data, fresh);
  return fresh;
}

const known = new WeakMap<Case, Map<StepData, Limits>>();

/** The limits where they are known. */
export function limitAt(data: StepData, one: Case | undefined): Limit | undefined {
  const limits = limitsOf(data, one);
  return limits.state === 'known' ? limits.limit : undefined;
}

/** What the circuit gives as the limits of a step, whatever the author wrote there. */
export function derivedAt(data: StepData, one: Case, marginRatio: number): Limits {
  const { action } = data;
  if (action.verb !== 'measure' && action.verb !== 'read') return none;
  const { meter } = one.procedure;
  const dimension = action.verb === 'measure' ? dimensionOf[action.measure] : 'voltage';
  if (!dimension) return notDerived('A test lamp shows no number');
  const situations = situationsAt(one, data);
  if (situations.length === 0) return notDerived('No path leads to this step with everything that it needs');
  const readings = situations.flatMap(now => readingAt(action, one, now) ?? []);
  if (readings.length === 0) return notDerived('The circuit gives a number only to scan data that come from a pin');
  return derived(readings, marginRatio, dimension, action.verb === 'measure' ? meter : undefined);
}

/** The limits of a row in one variant. The circuit's are those of the situation that the table describes, on a common handheld meter. */
export function limitsOfRow(table: Specification, row: SpecificationRow, circuit: Circuit): Limits {
  if (!row.limits) return none;
  return row.limits.limit ? typed(row.limits.limit) : derivedInRow(table, row, circuit, row.limits.marginRatio);
}

/** What the circuit gives as the limits of a row, whatever the author wrote there. */
export function derivedInRow(
  table: Specification,
  row: SpecificationRow,
  circuit: Circuit,
  marginRatio: number,
): Limits {
  const dimension = dimensionOf[table.meter.measure];
  if (!dimension) return notDerived('A test lamp shows no number');
  const reading = circuit.read(table.meter, handheldMeter, situationOfRow(table, row, circuit));
  return derived([reading], marginRatio, dimension, handheldMeter);
}

/** The situation in which a row is measured: from rest, with what the table and then the row set. */
export function situationOfRow(table: Specification, row: SpecificationRow, { rest, become }: Circuit): Situation {
  let now = rest;
  for (const { name, state } of [...table.set, ...row.set]) {
    if (now.states.has(name.text)) now = become(now, new Map([...now.states, [name.text, state.text]]), now.apart);
  }
  const apart = [...table.disconnect, ...table.remove].map(({ text }) => text);
  return apart.length === 0 ? now : become(now, now.states, new Set(apart));
}

function limitsOfRowNamed(action: StepAction, { system, variant, circuit }: Case): Limits {
  const named = action.verb === 'measure' && action.specification && rowOf(system, action.specification.text);
  if (!named) return none;
  const { table, row } = named;
  if (row.limits?.limit) return typed(row.limits.limit);
  if (existsIn(table, variant) && existsIn(row, variant)) return limitsOfRow(table, row, circuit);
  return notDerived(`\`${action.specification!.text}\` does not exist in variant \`${variant}\``);
}

type StepAction = Extract<Action, { verb: 'measure' | 'read' }>;

/** Limits that every reading of a good machine meets; none where one of the readings is no number. */
function derived(
  readings: readonly MeterReading[],
  marginRatio: number,
  dimension: Dimension,
  meter: Meter | undefined,
): Limits {
  const numbers = readings.filter((reading): reading is NumberReading => reading.state === 'number');
  const other = readings.find(reading => reading.state !== 'number');
  if (!other) return { state: 'known', limit: limitAround(numbers, marginRatio, dimension, meter), isDerived: true };
  return { state: 'not derived', why: inWords(other, numbers), reading: other, dependsOnPath: numbers.length > 0 };
}

function inWords(other: MeterReading, [number]: readonly NumberReading[]): string {
  if (other.state === 'over limit') {
    return number
      ? `The circuit gives ${rangeInWords(number)} on one path to the step and OL on another`
      : 'The circuit gives OL: no path joins the leads';
  }
  const why = whyNoNumber(other) || 'a lead cannot be put there';
  return `The circuit gives no number${number ? ' on every path to the step' : ''}: ${why}`;
}

const none: Limits = { state: 'none' };

function typed(limit: Limit): Limits {
  return { state: 'known', limit, isDerived: false };
}

function notDerived(why: string): NotDerived {
  return { state: 'not derived', why };
}
