import type { WireSize } from '../../base/quantity/wire-size.ts';
import type { Ranged } from '../../base/ranged.ts';
import { maximumOhmsPerKm, type Strands } from './class-table.ts';
import { gaugeAreaMm2 } from './gauge.ts';
import { copperFactor } from './temperature.ts';

/**
 * The resistance in ohms of a copper wire `lengthM` metres long, at one temperature. Nominal and low are those of a full
 * cross-section of annealed copper; high is the most that the conductor standards allow (see `ohmsPerMetre`).
 */
export function wireOhms(size: WireSize, lengthM: number, temperatureC: number, strands: Strands = 'stranded'): Ranged {
  const { low, nominal, high } = ohmsPerMetre(size, strands);
  const factor = lengthM * copperFactor(temperatureC);
  return { low: low * factor, nominal: nominal * factor, high: high * factor };
}

/**
 * Ohms per metre at 20 °C. Nominal is the resistivity of annealed copper over the nominal area, and low is the same:
 * makers save copper and do not add any (common practice, no source). High is the maximum of IEC 60228 for its class; for an area
 * that is not in the table, the table's largest ratio of maximum to nominal; for a stranded gauge, what UL 1581 allows.
 */
export function ohmsPerMetre(size: WireSize, strands: Strands = 'stranded'): Ranged {
  if ('gauge' in size) {
    const nominal = copperOhmsPerMetre(gaugeAreaMm2(size.gauge));
    return { low: nominal, nominal, high: strands === 'solid' ? nominal : nominal * strandedGaugeRatio };
  }
  const nominal = copperOhmsPerMetre(size.areaMm2);
  const maximum = maximumOhmsPerKm[strands].get(size.areaMm2);
  return { low: nominal, nominal, high: maximum === undefined ? nominal * largestRatio(strands) : maximum / 1000 };
}

/** International Annealed Copper Standard: 58 m/(Ω·mm²) at 20 °C by definition (IEC 60028:1925, from memory). */
const copperOhmMm2PerMetre = 1 / 58;

/** UL 1581 prints 21.8 Ω/km for stranded 18 AWG and 34.6 Ω/km for 20 AWG, 4.1 % and 3.9 % over solid copper. */
const strandedGaugeRatio = 1.041;

function copperOhmsPerMetre(areaMm2: number): number {
  return copperOhmMm2PerMetre / areaMm2;
}

function largestRatio(strands: Strands): number {
  const rows = [...maximumOhmsPerKm[strands]];
  return Math.max(...rows.map(([areaMm2, ohmsPerKm]) => ohmsPerKm / 1000 / copperOhmsPerMetre(areaMm2)));
}
