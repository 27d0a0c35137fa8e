import type { Ranged } from '../../base/ranged.ts';

/** Volts without load after hours of rest at 26.7 °C of a battery of six cells, by its charge; published table. */
export interface ChargeRow {
  /** 0 to 1. */
  readonly charge: number;
  readonly volts: number;
}

/** Discover Battery, open-circuit voltage by state of charge, tables 6 to 8, of the kind that the battery council prints. */
const restingTable: readonly ChargeRow[] = [
  { charge: 0, volts: 11.89 },
  { charge: 0.25, volts: 12.06 },
  { charge: 0.5, volts: 12.24 },
  { charge: 0.75, volts: 12.45 },
  { charge: 1, volts: 12.65 },
];

/** Other makers print 12.66, 12.45, 12.30 and 12.15 V (motorhome.com). */
const betweenMakersV = 0.05;

/** A battery that nothing is said about is charged between three quarters and full (common practice, no source). */
export const usualCharge: Ranged = { low: 0.75, nominal: 0.95, high: 1 };

/** The open-circuit voltage of a lead-acid battery at rest, by its charge (0 to 1) and the number of its cells. */
export function restingVolts(charge: Ranged, cells: number): Ranged {
  const share = cells / 6;
  const low = share * (tableVolts(charge.low) - betweenMakersV);
  return {
    low,
    nominal: share * tableVolts(charge.nominal),
    high: share * (tableVolts(charge.high) + betweenMakersV),
  };
}

/**
 * Terminals while the starter turns: a good battery keeps some 11 V, and 9.6 V is the least in the tables of battery testers (manual
 * of a hand-held tester: "around 11 volts for a good battery", 9.6 V the limit).
 */
export function crankingVolts(cells: number): Ranged {
  return scaled({ low: 9.6, nominal: 10.8, high: 11.8 }, cells);
}

/** Terminals while the alternator charges: 13.7 V to 14.7 V, as workshop pages agree (yic-electronics.com, car-battery.shop). */
export function chargingVolts(cells: number): Ranged {
  return scaled({ low: 13.7, nominal: 14.2, high: 14.7 }, cells);
}

function scaled({ low, nominal, high }: Ranged, cells: number): Ranged {
  const share = cells / 6;
  return { low: low * share, nominal: nominal * share, high: high * share };
}

/** Straight between the rows; below empty and above full the last row counts. */
function tableVolts(charge: number): number {
  const first = restingTable[0]!;
  const last = restingTable.at(-1)!;
  if (charge <= first.charge) return first.volts;
  if (charge >= last.charge) return last.volts;
  const upper = restingTable.findIndex(row => row.charge >= charge);
  const [from, to] = [restingTable[upper - 1]!, restingTable[upper]!];
  return from.volts + ((charge - from.charge) / (to.charge - from.charge)) * (to.volts - from.volts);
}
