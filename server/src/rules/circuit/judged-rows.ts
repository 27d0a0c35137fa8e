import { limitsOfRow, situationOfRow } from '../../analysis/limits.ts';
import type { FileView, SystemView } from '../../analysis/view.ts';
import { existsIn } from '../../model/common.ts';
import { handheldMeter } from '../../model/meter.ts';
import type { Specification, SpecificationRow } from '../../model/system.ts';
import { type HeldAgainst, judgedSteps, type Outcome, verdictOf } from './judged.ts';

/** A row of a specification table with what the circuit gives in the situation that the row describes. */
export interface JudgedRow extends HeldAgainst {
  readonly table: Specification;
  readonly row: SpecificationRow;
}

/** Every row of the tables in the file, once for all variants that have it. */
export function judgedRows(view: SystemView): readonly JudgedRow[] {
  const before = perView.get(view);
  if (before) return before;
  const found: JudgedRow[] = [];
  for (const table of view.system.specifications.values()) {
    for (const row of table.rows.values()) {
      // A table of an included file is told there.
      if (row.place.uri === view.uri && row.limits) found.push(judge(view, table, row, row.limits));
    }
  }
  perView.set(view, found);
  return found;
}

const perView = new WeakMap<SystemView, readonly JudgedRow[]>();

function judge(
  view: SystemView,
  table: Specification,
  row: SpecificationRow,
  specified: NonNullable<SpecificationRow['limits']>,
): JudgedRow {
  const { system } = view;
  const variants = system.variants.filter(variant => existsIn(table, variant) && existsIn(row, variant));
  const outcomes = variants.map((variant): Outcome => {
    const circuit = view.circuit(variant);
    const situation = situationOfRow(table, row, circuit);
    const reading = circuit.read(table.meter, handheldMeter, situation);
    const limits = limitsOfRow(table, row, circuit);
    const verdict = verdictOf(reading, limits.state === 'known' ? limits.limit : undefined);
    return { one: { system, variant, circuit }, situation, reading, verdict };
  });
  return {
    table,
    row,
    name: `${table.id}/${row.id}`,
    limit: specified.limit,
    place: specified.place,
    specified,
    meter: handheldMeter,
    cases: system.variants.map(variant => ({ variant })),
    outcomes,
  };
}

/** What a file holds against the circuit: the steps of a procedure, the rows of the tables of a system. */
export function heldAgainst(view: FileView): readonly HeldAgainst[] {
  if (view.kind === 'procedure') return judgedSteps(view);
  return view.kind === 'system' ? judgedRows(view) : [];
}
