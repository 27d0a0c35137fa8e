import { shiftDecimal, tidy } from './decimal.ts';
import type { Dimension } from './dimension.ts';
import { noUnit, type Unit, unitsOf } from './units.ts';

export interface FormatOptions {
  /** Significant digits; left out: three, or four after a leading 1, as a 2000-count meter shows them. */
  digits?: number;
}

/**
 * Writes a value in base units as the trade does, with an engineering prefix and never more digits than asked for:
 * `4.93 V`, `22.6 kΩ`, `12 mA`. Trailing zeros are dropped. An infinite value is `OL`, an unknown one `no value`.
 */
export function formatQuantity(value: number, dimension: Dimension, options: FormatOptions = {}): string {
  if (!Number.isFinite(value)) return Number.isNaN(value) ? 'no value' : value > 0 ? 'OL' : '-OL';
  const unit = unitFor(value, dimension, options.digits);
  const written = fromBase(value, unit);
  return withUnit(written, decimalsFor(written, options.digits), unit, Math.round);
}

export type Rounding = 'nearest' | 'outward' | 'inward';

/**
 * Writes both ends of a range with one unit where they are near, each with its unit: `4.71 V .. 4.93 V`. `outward` gives
 * a range that contains the true one (to a relative 1e-9), `inward` one that lies in it. Narrow ranges get as many
 * digits as rounding needs to move each end by no more than a tenth of the width. Ends that come out equal are written once.
 */
export function formatRange(low: number, high: number, dimension: Dimension, rounding: Rounding = 'nearest'): string {
  if (!Number.isFinite(low) || !Number.isFinite(high)) return formatOpenRange(low, high, dimension);
  const largest = Math.max(Math.abs(low), Math.abs(high));
  if (rounding !== 'outward' && high - low <= 1e-9 * largest) return formatQuantity(low, dimension);
  const [from, to] = formatEnds(low, high, dimension, rounding);
  return from === to ? from : `${from} .. ${to}`;
}

/** Both ends of a range as `formatRange` writes them; an infinite one is `OL`. */
export function formatEnds(low: number, high: number, dimension: Dimension, rounding: Rounding): [string, string] {
  const largest = Math.max(0, ...[low, high].filter(Number.isFinite).map(Math.abs));
  const unit = unitFor(largest, dimension);
  const width = fromBase(high, unit) - fromBase(low, unit);
  const enough = width > 0 ? Math.ceil(-Math.log10(width / 10)) : 0;
  const end = (value: number, round: (x: number) => number) => {
    if (!Number.isFinite(value)) return formatQuantity(value, dimension);
    const own = value !== 0 && Math.abs(value) < largest / 20 ? unitFor(value, dimension) : unit;
    const written = fromBase(value, own);
    const finest = Math.min(finestDecimals, Math.max(decimalsFor(written), own === unit ? enough : 0));
    return withUnit(written, finest, own, round);
  };
  const [down, up] = roundings[rounding];
  return [end(low, down), end(high, up)];
}

function formatOpenRange(low: number, high: number, dimension: Dimension): string {
  if (low === high) return formatQuantity(low, dimension);
  if (Number.isFinite(low)) return `at least ${formatQuantity(low, dimension)}`;
  return Number.isFinite(high) ? `at most ${formatQuantity(high, dimension)}` : 'any value';
}

const roundings: Record<Rounding, [(x: number) => number, (x: number) => number]> = {
  nearest: [Math.round, Math.round],
  outward: [Math.floor, Math.ceil],
  inward: [Math.ceil, Math.floor],
};

/** The units shown for a dimension, smallest first. */
const shown: Record<Dimension, readonly string[]> = {
  voltage: ['µV', 'mV', 'V', 'kV'],
  resistance: ['µΩ', 'mΩ', 'Ω', 'kΩ', 'MΩ', 'GΩ'],
  current: ['µA', 'mA', 'A', 'kA'],
  power: ['mW', 'W', 'kW'],
  length: ['mm', 'm'],
  area: ['mm²'],
  temperature: ['°C'],
  'temperature difference': ['K'],
  time: ['µs', 'ms', 's'],
  pressure: ['Pa', 'kPa', 'MPa'],
  ratio: ['%'],
  frequency: ['Hz', 'kHz', 'MHz'],
  capacitance: ['pF', 'nF', 'µF', 'mF', 'F'],
  inductance: ['µH', 'mH', 'H'],
  charge: ['Ah'],
  angle: ['°'],
  speed: ['km/h'],
  rotation: ['rpm'],
  flow: ['l/min'],
  torque: ['N·m'],
  'resistance per length': ['mΩ/m'],
  'voltage rate': ['V/s'],
  number: [],
};

/** The largest unit in which the rounded value is at least one; the smallest where none is. */
function unitFor(value: number, dimension: Dimension, digits?: number): Unit {
  const units = shown[dimension].flatMap(symbol => unitsOf(dimension).find(unit => unit.symbol === symbol) ?? []);
  const usual = units.find(unit => unit.power === 0) ?? units[0] ?? noUnit;
  if (value === 0) return usual;
  const reaches = (unit: Unit) => {
    const written = Math.abs(fromBase(value, unit));
    return roundTo(written, decimalsFor(written, digits), Math.round) >= 1;
  };
  return units.findLast(reaches) ?? units[0] ?? noUnit;
}

function fromBase(value: number, unit: Unit): number {
  const shifted = shiftDecimal(value, -unit.power);
  return tidy(unit.factor === 1 && unit.zero === 0 ? shifted : shifted / unit.factor + unit.zero);
}

const finestDecimals = 20;

/** Digits behind the point that give the wanted number of significant digits. */
function decimalsFor(written: number, digits?: number): number {
  if (written === 0) return 0;
  const [mantissa = '', exponent = '0'] = Math.abs(written).toExponential(2).split('e');
  const significant = digits ?? (mantissa.startsWith('1') ? 4 : 3);
  return Math.min(finestDecimals, Math.max(0, significant - 1 - Number(exponent)));
}

/** Rounds at a decimal place; a value that is there already but for floating-point residue is left where it is. */
function roundTo(written: number, decimals: number, round: (x: number) => number): number {
  const scaled = shiftDecimal(written, decimals);
  const nearest = Math.round(scaled);
  const isThere = Math.abs(scaled - nearest) <= 1e-9 * Math.max(1, Math.abs(scaled));
  return shiftDecimal(isThere ? nearest : round(scaled), -decimals);
}

function withUnit(written: number, decimals: number, unit: Unit, round: (x: number) => number): string {
  const rounded = roundTo(written, decimals, round);
  const text = rounded.toFixed(decimals);
  const trimmed = text.includes('.') ? text.replace(/\.?0+$/, '') : text;
  const number = Number(trimmed) === 0 ? '0' : trimmed;
  return unit.symbol ? `${number} ${unit.symbol}` : number;
}
