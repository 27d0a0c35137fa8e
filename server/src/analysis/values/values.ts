import { wire } from '../lower/wiring.ts';
import type { SystemView } from '../view.ts';
import { withStates } from './changes.ts';
import { blackLead, linesOf } from './lines.ts';
import { operatingStates } from './operating.ts';
import type { StateOf, ValueRow, ValuesTable } from './table.ts';
import { measuredParts, unplugged } from './unplugged.ts';
import { voltagesOf } from './voltages.ts';

export interface ValuesOptions {
  /** What is set differently from rest, instead of what the circuit says is needed to feed the machine. */
  readonly operating?: readonly StateOf[];
  /** So many voltages are read at most; what is left out is named in the table. */
  readonly mostReadings?: number;
}

/** Some seconds of work on a machine of 300 parts. */
const usualMost = 8_000;

/** The table of one variant, at once. */
export function valuesTable(view: SystemView, variant: string, options: ValuesOptions = {}): ValuesTable {
  const work = workOnValues(view, variant, options);
  for (;;) {
    const { done, value } = work.next();
    if (done) return value;
  }
}

/** The same in small pieces, so that a host can do something else in between or leave it. */
export function* workOnValues(
  view: SystemView,
  variant: string,
  { operating, mostReadings = usualMost }: ValuesOptions = {},
): Generator<void, ValuesTable> {
  const { system } = view;
  const circuit = view.circuit(variant);
  const wiring = wire(system, variant);
  const lines = linesOf(wiring);
  const black = blackLead(wiring, lines);
  const set = operating ?? (black === undefined ? [] : yield* operatingStates(circuit, system, lines, black));
  const different = set.filter(({ name, state }) => circuit.rest.states.get(name) !== state);
  yield;
  const bench = {
    circuit,
    wiring,
    black: black ?? '',
    base: withStates(circuit.rest, set, circuit),
    operating: different,
  };
  const voltages = yield* voltagesOf(bench, black === undefined ? [] : lines, mostReadings);

  const resistances: ValueRow[] = [];
  const notComputed: string[] = [];
  for (const part of measuredParts(system, variant)) {
    const { rows, isComputed } = unplugged(part, system, variant);
    resistances.push(...rows);
    if (!isComputed) notComputed.push(part.id);
    yield;
  }
  return {
    variant,
    black,
    operating: different,
    voltages: voltages.rows,
    resistances,
    leftOut: { points: voltages.pointsLeftOut, states: voltages.statesLeftOut, parts: notComputed },
  };
}
