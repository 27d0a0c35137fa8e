import { limitsOfRow, situationOfRow } from '../../analysis/limits.ts';
import { situationsAt } from '../../analysis/readings.ts';
import type { Case } from '../../analysis/view.ts';
import type { Limit } from '../../base/quantity/limit.ts';
import { existsIn } from '../../model/common.ts';
import type { Lead, MeterPlace, StepData } from '../../model/step.ts';
import type { Specification, SpecificationRow } from '../../model/system.ts';

/** A row that specifies just what a step measures. */
export interface SpecifiedBy {
  readonly table: Specification;
  readonly row: SpecificationRow;
  readonly limit: Limit;
}

/**
 * The row with the same measurement at the same points, in a situation in which the meter shows the same in every way that the step
 * is reached: the states and the plugs that have a say are those of the row.
 */
export function rowMeasured(data: StepData, one: Case): SpecifiedBy | undefined {
  const { action } = data;
  if (action.verb !== 'measure') return undefined;
  const { system, variant, circuit, procedure } = one;
  const tables = [...system.specifications.values()].filter(t => isSamePlace(t.meter, action) && existsIn(t, variant));
  if (tables.length === 0) return undefined;
  const situations = situationsAt(one, data);
  if (situations.length === 0) return undefined;
  for (const table of tables) {
    for (const row of table.rows.values()) {
      if (!existsIn(row, variant)) continue;
      const there = situationOfRow(table, row, circuit);
      if (situations.some(now => circuit.differs(action, procedure.meter, now, there))) continue;
      const limits = limitsOfRow(table, row, circuit);
      if (limits.state === 'known') return { table, row, limit: limits.limit };
    }
  }
  return undefined;
}

/** How a lead gets to its point does not change what is read there; nor do swapped leads the reading of an ohmmeter. */
function isSamePlace(a: MeterPlace, b: MeterPlace): boolean {
  if (a.measure !== b.measure || a.around?.text !== b.around?.text) return false;
  if (isSameLead(a.red, b.red) && isSameLead(a.black, b.black)) return true;
  return a.measure === 'resistance' && isSameLead(a.red, b.black) && isSameLead(a.black, b.red);
}

function isSameLead(a: Lead | undefined, b: Lead | undefined): boolean {
  return a?.point.text === b?.point.text && a?.side?.text === b?.side?.text;
}
