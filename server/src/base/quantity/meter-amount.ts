import type { Dimension } from './dimension.ts';
import { formatQuantity } from './format.ts';

/** As a meter shows it: `0.5 V`, not `500 mV`. */
export function meterAmount(value: number, dimension: Dimension): string {
  const unit = meterUnits[dimension];
  const size = Math.abs(value);
  if (unit && size >= 0.01 && size < 1) return `${Number(value.toPrecision(6))} ${unit}`;
  return formatQuantity(value, dimension, { digits: 6 });
}

const meterUnits: Partial<Record<Dimension, string>> = { voltage: 'V', resistance: 'Ω', current: 'A' };
