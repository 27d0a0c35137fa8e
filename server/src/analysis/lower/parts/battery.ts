import type { Ranged } from '../../../base/ranged.ts';
import { chargingVolts, crankingVolts, restingVolts, usualCharge } from '../../../circuit/curves/lead-acid.ts';
import type { Test, Value, ValueCase } from '../../../model/common.ts';
import type { PartData } from '../../../model/parts.ts';

/** Six cells in series, a battery of 12 V. */
const usualCells = 6;

/** Volts of a lead-acid cell (from memory), where the number of cells is not stated. */
const cellV = 2.1;

/** Cells in series of a lead-acid battery; by its voltage, where nothing else is said. */
export function cellsOf({ volts, states }: Extract<PartData, { kind: 'battery' | 'supply' }>): number {
  if (states) return states.cells ?? usualCells;
  const stated = volts?.cases[0]?.is.nominal;
  return stated === undefined ? usualCells : Math.max(1, Math.round(stated / cellV));
}

/**
 * The voltage of a battery or a supply without load, by the tests under which it is another. What is stated goes before what follows from
 * the charge of a lead-acid battery; of that, cranking goes before charging, and charging before rest.
 */
export function sourceVolts({ volts, states }: Extract<PartData, { kind: 'battery' | 'supply' }>): Value | undefined {
  if (!states) return volts;
  const { charge = usualCharge, cells = usualCells, crankingWhen, chargingWhen, place } = states;
  const during = (when: Test | undefined, is: Ranged): ValueCase[] => (when ? [{ when, is, place }] : []);
  return {
    cases: [
      ...(volts?.cases ?? []),
      ...during(crankingWhen, crankingVolts(cells)),
      ...during(chargingWhen, chargingVolts(cells)),
      { is: restingVolts(charge, cells), place },
    ],
  };
}
