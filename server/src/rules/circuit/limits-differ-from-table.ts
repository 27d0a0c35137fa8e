import { formatLimit, type Limit } from '../../base/quantity/limit.ts';
import { lampProcedure } from '../example.ts';
import { replaceEntry } from '../fixes.ts';
import type { Finding, Rule } from '../rule.ts';
import { name } from '../wording.ts';
import { type Judged, judgedSteps } from './judged.ts';
import { rowMeasured, type SpecifiedBy } from './same-measurement.ts';

export const limitsDifferFromTable: Rule = {
  id: 'limits-differ-from-table',
  severity: 'warning',
  group: 'limits',
  on: 'procedure',
  title: 'Limits that differ from the table for the same measurement',
  explanation: `
A specification table of the system file has a row for just what this step measures: the same points, in a situation in which the reading is
the same. The limits of the step are others. One of the two was corrected and the other one forgotten, and what a technician is told depends on
which page is open.

Name the row as the \`specification\` of the step, so that the number stands in one place, or correct it.`,
  bad: lampProcedure(`
steps:
  look:
    set: { key: off }
    disconnect: [X1]
    measure: resistance
    red: X1/1 (E1 side)
    black: X1/2 (E1 side)
    limits: 9.2 Ω .. 12 Ω
#           ^^^^^^^^^^^^^ warning limits-differ-from-table: \`lamp-ohms/cold\` says 9 Ω .. 11 Ω for this measurement [fix]
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
    specification: lamp-ohms/cold
    then: { within: not-found, otherwise: ask-the-maker }
endings:
  not-found: { no fault: The lamp is bright, connect: [X1] }
  ask-the-maker: { refer: Ask the maker, connect: [X1] }
`),
  *check(view) {
    for (const judged of judgedSteps(view)) {
      const { specified, action, data } = judged;
      // What the circuit contradicts is told as that.
      if (!specified?.limit || judged.outcomes.some(o => o.verdict === 'fails' || o.verdict === 'can fail')) continue;
      if (action.verb !== 'measure' || action.specification) continue;
      const { limit } = specified;
      const of = judged.outcomes.map(o => o.one);
      const other = view.cases
        .filter(one => of.includes(one))
        .flatMap(one => rowMeasured(data, one) ?? [])
        .find(row => !isSame(row.limit, limit));
      if (other) yield finding(judged, specified.place, limit, other);
    }
  },
};

/** As they are written, to six digits. */
function isSame(a: Limit, b: Limit): boolean {
  return a.dimension === b.dimension && formatLimit(a) === formatLimit(b);
}

function finding(
  { step }: Judged,
  place: Finding['place'],
  limit: Limit,
  { table, row, limit: other }: SpecifiedBy,
): Finding {
  const id = `${table.id}/${row.id}`;
  return {
    rule: 'limits-differ-from-table',
    place,
    message: `${name(id, 30)} says ${formatLimit(other)} for this measurement`,
    detail: `${name(step.id)} measures at the same points, in a situation in which the meter shows the same, and says ${formatLimit(limit)}.`,
    help: `Name the row as the \`specification\` of the step, or correct one of the two.`,
    related: row.limits && [{ place: row.limits.place, message: `The limits of ${name(id)} stand here` }],
    fixes: replaceEntry(step, place, `Use the specification \`${id}\``, `specification: ${id}`),
  };
}
