import type { MeterReading } from '../../analysis/electrical.ts';
import { type Limits, limitsOf, limitsOfRow, type NotDerived } from '../../analysis/limits.ts';
import { rangeInWords, readingAt, situationsAt } from '../../analysis/readings.ts';
import type { Case, ProcedureView, SystemView } from '../../analysis/view.ts';
import type { Fix } from '../../base/finding.ts';
import type { Place } from '../../base/place.ts';
import { lampProcedure } from '../example.ts';
import type { Finding, Rule } from '../rule.ts';
import { inVariants, name } from '../wording.ts';
import { ways } from './judged.ts';
import { judgedRows } from './judged-rows.ts';
import { supplyVolts } from './supplies.ts';

export const limitsNotDerived: Rule = {
  id: 'limits-not-derived',
  severity: 'error',
  group: 'circuit',
  on: 'any',
  title: 'Limits that the circuit cannot give',
  explanation: `
The step, or the row of a table, leaves its limits to the circuit (\`from the circuit\`), and the circuit gives no range there: no path joins the
leads of an ohmmeter, a lead touches nothing that is driven, a part with a say has no value, or the scan data do not come from a pin. Or it gives
everything from nothing up to the voltage of a supply, as where the tolerances leave open whether a relay pulls in. Nobody knows then which
reading is right.

Set the condition under which there is a reading, or write the limits by hand: \`OL\` where an open path is what a good machine shows.`,
  bad: lampProcedure(`
steps:
  look:
    set: { key: off }
    disconnect: [X1]
    measure: resistance
    red: X1/1 (S1 side)
    black: X1/2 (E1 side)
    limits: from the circuit
#           ^^^^^^^^^^^^^^^^ error limits-not-derived: The circuit gives no limits for \`look\` [fix]
    then: { within: not-found, otherwise: ask-the-maker }
endings:
  not-found: { no fault: The lamp is bright, connect: [X1] }
  ask-the-maker: { refer: Ask the maker, connect: [X1] }
`),
  good: lampProcedure(`
steps:
  look:
    set: { key: off }
    disconnect: [X1]
    measure: resistance
    red: X1/1 (E1 side)
    black: X1/2 (E1 side)
    limits: from the circuit, with 2 % margin
    then: { within: not-found, otherwise: ask-the-maker }
endings:
  not-found: { no fault: The lamp is bright, connect: [X1] }
  ask-the-maker: { refer: Ask the maker, connect: [X1] }
`),
  check(view) {
    if (view.kind === 'procedure') return inProcedure(view);
    return view.kind === 'system' ? inTables(view) : [];
  },
};

function* inProcedure(view: ProcedureView): Generator<Finding> {
  for (const step of view.procedure.steps.values()) {
    for (const [data, cases] of ways(step, view.cases)) {
      const { action } = data;
      if ((action.verb !== 'measure' && action.verb !== 'read') || action.limits?.marginRatio === undefined) continue;
      const open = cases.flatMap(one => {
        const limits = limitsOf(data, one);
        const situations = situationsAt(one, data);
        if (limits.state === 'not derived' && isToldElsewhere(limits, situations.length > 0)) return [];
        const readings = situations.map(now => readingAt(action, one, now));
        return notGiven(limits, readings, one);
      });
      const variants = view.cases.map(one => one.variant);
      if (open.length > 0) yield finding(step.id, action.limits.place, open, variants);
    }
  }
}

function* inTables(view: SystemView): Generator<Finding> {
  for (const { table, row, specified, name: id, place, outcomes } of judgedRows(view)) {
    if (specified?.marginRatio === undefined) continue;
    const open = outcomes.flatMap(({ one, reading }) => notGiven(limitsOfRow(table, row, one.circuit), [reading], one));
    if (open.length > 0) yield finding(id, place, open, view.system.variants);
  }
}

/** A step that no path reaches, or only some do, a lead that floats, a live circuit: other rules say so, at the word that is wrong. */
function isToldElsewhere({ reading, dependsOnPath }: NotDerived, isReached: boolean): boolean {
  if (!reading) return !isReached;
  return dependsOnPath === true || !['over limit', 'not computed'].includes(reading.state);
}

interface Open extends Pick<NotDerived, 'why' | 'reading'> {
  readonly variant: string;
}

type Machine = Pick<Case, 'system' | 'variant'>;

/** Why there are no limits in this variant, or none that a faulty machine could miss. */
function notGiven(limits: Limits, readings: readonly (MeterReading | undefined)[], one: Machine): readonly Open[] {
  const { variant } = one;
  if (limits.state === 'not derived') return [{ why: limits.why, reading: limits.reading, variant }];
  const open = readings.find(reading => leavesOpen(reading, one));
  const why = open && `The circuit leaves open what is read, ${rangeInWords(open)}, and no supply gives more`;
  return why ? [{ why, variant }] : [];
}

/** From nearly nothing to nearly all that a supply gives. */
function leavesOpen(reading: MeterReading | undefined, { system, variant }: Machine): boolean {
  if (reading?.state !== 'number' || reading.dimension !== 'voltage') return false;
  const { highest } = supplyVolts(system, variant);
  return highest > 0 && reading.low <= 0.1 * highest && reading.high >= 0.9 * highest;
}

function finding(id: string, place: Place, open: readonly Open[], all: readonly string[]): Finding {
  const [{ why, reading }] = open as readonly [Open];
  const where = inVariants([...new Set(open.map(o => o.variant))], [...new Set(all)]);
  return {
    rule: 'limits-not-derived',
    place,
    message: `The circuit gives no limits for ${name(id)}`,
    detail: `${why}${where}. So nobody knows which reading is right.`,
    help: 'Set what the reading needs, or write the limits by hand.',
    fixes: reading?.state === 'over limit' ? writeOverLimit(place) : [],
  };
}

function writeOverLimit(place: Place): readonly Fix[] {
  return [{ title: 'Write `OL`', edits: [{ place, text: 'OL' }] }];
}
