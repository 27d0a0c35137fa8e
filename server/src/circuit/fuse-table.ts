import type { Ranged } from '../base/ranged.ts';

/**
 * The cold resistance in ohms of a blade fuse (ISO 8820-3) by its rating in amperes, for systems that do not state one.
 * Between the ratings of the table it is interpolated on a double logarithmic scale, and beyond them continued. Nothing
 * without a rating above zero.
 */
export function fuseOhms(ratingA: number | undefined): Ranged | undefined {
  if (ratingA === undefined || !(ratingA > 0) || !Number.isFinite(ratingA)) return undefined;
  const reached = fuseTable.findIndex(row => row.ratingA >= ratingA);
  const upper = reached < 0 ? fuseTable.length - 1 : Math.max(reached, 1);
  const [left, right] = [fuseTable[upper - 1]!, fuseTable[upper]!];
  const share = Math.log(ratingA / left.ratingA) / Math.log(right.ratingA / left.ratingA);
  const nominal = left.ohms * (right.ohms / left.ohms) ** share;
  return { low: nominal * (1 - spread), nominal, high: nominal * (1 + spread) };
}

/** Fuses of different makers and sizes differ; the two measured ones of 15 A by 7 %. Common practice, no source. */
const spread = 0.15;

interface FuseRow {
  readonly ratingA: number;
  readonly ohms: number;
  readonly source: string;
}

/** Nominal cold resistance. The rows from memory agree with the sourced ones in falling faster than the rating rises. */
export const fuseTable: readonly FuseRow[] = [
  { ratingA: 5, ohms: 0.0179, source: 'typical data sheet value, from memory' },
  { ratingA: 7.5, ohms: 0.0109, source: 'typical data sheet value, from memory' },
  { ratingA: 10, ohms: 0.0077, source: 'chart of drop against current, regular blade: 1 mV at 130 mA' },
  { ratingA: 15, ohms: 0.00459, source: 'trade bulletin of June 2017, mini blade: 1.0 mV at 218 mA' },
  { ratingA: 20, ohms: 0.0034, source: 'typical data sheet value, from memory' },
  { ratingA: 25, ohms: 0.0025, source: 'typical data sheet value, from memory' },
  { ratingA: 30, ohms: 0.002, source: 'typical data sheet value, from memory' },
];
