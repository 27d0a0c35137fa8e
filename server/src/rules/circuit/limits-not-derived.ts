import { limitsOf, limitsOfRow, type NotDerived } from '../../analysis/limits.ts';
import { situationsAt } from '../../analysis/readings.ts';
import type { ProcedureView, SystemView } from '../../analysis/view.ts';
import type { Fix } from '../../base/finding.ts';
import type { Place } from '../../base/place.ts';
import { lampProcedure } from '../example.ts';
import type { Finding, Rule } from '../rule.ts';
import { inVariants, name } from '../wording.ts';
import { ways } from './judged.ts';
import { judgedRows } from './judged-rows.ts';

export const limitsNotDerived: Rule = {
  id: 'limits-not-derived',
  severity: 'error',
  group: 'circuit',
  on: 'any',
  title: 'Limits that the circuit cannot give',
  explanation: `
The step, or the row of a table, leaves its limits to the circuit (\`from the circuit\`), and the circuit gives no range there: no path joins the
leads of an ohmmeter, a lead touches nothing that is driven, a part with a say has no value, or the scan data do not come from a pin. Nobody
knows then which reading is right.

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
        const isTold = limits.state !== 'not derived' || isToldElsewhere(limits, situationsAt(one, data).length > 0);
        return isTold ? [] : [{ limits, variant: one.variant }];
      });
      const variants = view.cases.map(one => one.variant);
      if (open.length > 0) yield finding(step.id, action.limits.place, open, variants);
    }
  }
}

function* inTables(view: SystemView): Generator<Finding> {
  for (const { table, row, name: id, place, outcomes } of judgedRows(view)) {
    const open = outcomes.flatMap(({ one: { variant, circuit } }) => {
      const limits = limitsOfRow(table, row, circuit);
      return limits.state === 'not derived' ? [{ limits, variant }] : [];
    });
    if (open.length > 0) yield finding(id, place, open, view.system.variants);
  }
}

/** A step that no path reaches, or only some do, a lead that floats, a live circuit: other rules say so, at the word that is wrong. */
function isToldElsewhere({ reading, dependsOnPath }: NotDerived, isReached: boolean): boolean {
  if (!reading) return !isReached;
  return dependsOnPath === true || !['over limit', 'not computed'].includes(reading.state);
}

interface Open {
  readonly limits: NotDerived;
  readonly variant: string;
}

function finding(id: string, place: Place, open: readonly Open[], all: readonly string[]): Finding {
  const [{ limits }] = open as readonly [Open];
  const where = inVariants([...new Set(open.map(o => o.variant))], [...new Set(all)]);
  return {
    rule: 'limits-not-derived',
    place,
    message: `The circuit gives no limits for ${name(id)}`,
    detail: `${limits.why}${where}. So nobody knows which reading is right.`,
    help: 'Set what the reading needs, or write the limits by hand.',
    fixes: limits.reading?.state === 'over limit' ? writeOverLimit(place) : [],
  };
}

function writeOverLimit(place: Place): readonly Fix[] {
  return [{ title: 'Write `OL`', edits: [{ place, text: 'OL' }] }];
}
