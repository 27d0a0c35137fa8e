import type { Dimension } from './dimension.ts';

// No package is used here: the unit libraries in the npm registry convert between units, but none reads tolerances,
// letter codes and meter limits, or says which token is wrong.

/** One unit. Base value = `(written - zero) * factor * 10^power`. */
export interface Unit {
  symbol: string;
  dimension: Dimension;
  power: number;
  factor: number;
  zero: number;
  /** Every accepted spelling, the symbol first. Letter case counts: `mΩ` and `MΩ` are nine powers of ten apart. */
  spellings: readonly string[];
}

/** What a plain number is written in. */
export const noUnit: Unit = { symbol: '', dimension: 'number', power: 0, factor: 1, zero: 0, spellings: [''] };

/** The units accepted for a dimension, smallest first within a family. */
export function unitsOf(dimension: Dimension): readonly Unit[] {
  return byDimension.get(dimension) ?? [];
}

/** All units written with exactly this spelling; several when dimensions share one (`K`: kilo-ohm, kelvin). */
export function unitsSpelled(spelling: string): readonly Unit[] {
  return bySpelling.get(spelling) ?? [];
}

/** All units whose spelling differs only by letter case. */
export function unitsSpelledLike(spelling: string): readonly Unit[] {
  return byLowerCase.get(spelling.toLowerCase()) ?? [];
}

interface Prefix {
  symbol: string;
  power: number;
  spellings: string[];
  word: string;
}

/** `K` for kilo is accepted because no other prefix is spelled so; IEC 60062 itself writes `4K7`. */
const prefixes: Record<string, Prefix> = {
  p: { symbol: 'p', power: -12, spellings: ['p'], word: 'pico' },
  n: { symbol: 'n', power: -9, spellings: ['n'], word: 'nano' },
  µ: { symbol: 'µ', power: -6, spellings: ['µ', 'μ', 'u'], word: 'micro' },
  m: { symbol: 'm', power: -3, spellings: ['m'], word: 'milli' },
  h: { symbol: 'h', power: 2, spellings: ['h'], word: 'hecto' },
  k: { symbol: 'k', power: 3, spellings: ['k', 'K'], word: 'kilo' },
  M: { symbol: 'M', power: 6, spellings: ['M'], word: 'mega' },
  G: { symbol: 'G', power: 9, spellings: ['G'], word: 'giga' },
};

/**
 * The table. Only prefixes that the trade meets are listed, so that `MV` or `mPa` is caught as a slip of letter case
 * and not read as megavolts. Conversion factors are the exact definitions of ISO 80000 and NIST SP 811 (from memory).
 */
const table: readonly Unit[] = [
  ...family('voltage', 'V', 'µ m . k', { words: ['volt', 'volts'], also: { '.': ['VDC', 'Vdc', 'V DC'] } }),
  ...family('resistance', 'Ω', 'µ m . k M G', {
    symbols: ['\u2126', 'ohm', 'ohms', 'Ohm', 'Ohms'],
    words: ['ohm', 'ohms'],
    also: { '.': ['R'], k: ['k', 'K', 'kR', 'kilohm', 'kilohms'], M: ['M', 'megohm', 'megohms'], G: ['G'] },
  }),
  ...family('current', 'A', 'µ m . k', { words: ['amp', 'amps', 'ampere', 'amperes'] }),
  ...family('power', 'W', 'm . k', { words: ['watt', 'watts'] }),
  ...family('length', 'm', 'µ m . k', { words: ['metre', 'metres', 'meter', 'meters'] }),
  unit('length', 'cm', { power: -2 }),
  unit('length', 'in', { factor: 0.0254, also: ['inch', 'inches'] }),
  unit('length', 'ft', { factor: 0.3048, also: ['foot', 'feet'] }),
  unit('area', 'mm²', { power: -6, also: ['mm2', 'mm^2', 'sq mm', 'sqmm'] }),
  unit('area', 'cm²', { power: -4, also: ['cm2', 'cm^2', 'sq cm'] }),
  unit('area', 'm²', { also: ['m2', 'm^2', 'sq m'] }),
  unit('temperature', '°C', { also: ['℃', 'degC', 'deg C', 'C'] }),
  unit('temperature', '°F', { zero: 32, factor: 5 / 9, also: ['℉', 'degF', 'deg F', 'F'] }),
  unit('temperature', 'K', { zero: 273.15, also: ['kelvin'] }),
  unit('temperature difference', 'K', { also: ['kelvin'] }),
  ...family('time', 's', 'µ m .', { words: ['second', 'seconds'], also: { '.': ['sec'] } }),
  unit('time', 'min', { factor: 60, also: ['minute', 'minutes'] }),
  unit('time', 'h', { factor: 3600, also: ['hour', 'hours'] }),
  ...family('pressure', 'Pa', '. h k M', { words: ['pascal', 'pascals'] }),
  unit('pressure', 'mbar', { power: 2 }),
  unit('pressure', 'bar', { power: 5 }),
  unit('pressure', 'psi', { factor: 6894.757293168 }),
  unit('pressure', 'inHg', { factor: 3386.389 }),
  unit('ratio', '%', { power: -2, also: ['percent'] }),
  unit('ratio', 'ppm', { power: -6 }),
  ...family('frequency', 'Hz', '. k M', { words: ['hertz'] }),
  ...family('capacitance', 'F', 'p n µ m .', {
    words: ['farad', 'farads'],
    also: { p: ['p'], n: ['n'], µ: ['µ', 'μ', 'u'] },
  }),
  ...family('inductance', 'H', 'n µ m .', { words: ['henry', 'henries'] }),
  unit('charge', 'mAh', { factor: 3.6 }),
  unit('charge', 'Ah', { factor: 3600, also: ['A·h'] }),
  unit('angle', '°', { also: ['deg', 'degree', 'degrees'] }),
  unit('speed', 'm/s', {}),
  unit('speed', 'km/h', { factor: 1 / 3.6, also: ['kph'] }),
  unit('speed', 'mph', { factor: 0.44704 }),
  unit('rotation', 'rpm', { also: ['r/min', 'rev/min'] }),
  unit('flow', 'l/min', { factor: 1 / 60_000, also: ['L/min', 'lpm'] }),
  unit('flow', 'm³/h', { factor: 1 / 3600, also: ['m3/h'] }),
  unit('torque', 'N·m', { also: ['Nm', 'N*m'] }),
  unit('resistance per length', 'Ω/km', { power: -3, also: ['\u2126/km', 'ohm/km'] }),
  unit('resistance per length', 'mΩ/m', { power: -3, also: ['m\u2126/m', 'mohm/m'] }),
  unit('resistance per length', 'Ω/m', { also: ['\u2126/m', 'ohm/m'] }),
  unit('voltage rate', 'mV/s', { power: -3 }),
  unit('voltage rate', 'V/s', {}),
];

const byDimension = groupBy(table, row => [row.dimension]);
const bySpelling = groupBy(table, row => row.spellings);
const byLowerCase = groupBy(table, row => [...new Set(row.spellings.map(spelling => spelling.toLowerCase()))]);

interface UnitOptions {
  power?: number;
  factor?: number;
  zero?: number;
  also?: string[];
}

function unit(dimension: Dimension, symbol: string, { power = 0, factor = 1, zero = 0, also = [] }: UnitOptions): Unit {
  return { symbol, dimension, power, factor, zero, spellings: [...new Set([symbol, ...also])] };
}

interface FamilyOptions {
  /** Other spellings of the symbol, which take the same prefix letters. */
  symbols?: string[];
  /** Names, which take prefixes written out: `millivolts`. */
  words?: string[];
  /** Further spellings of one member, by its prefix. */
  also?: Record<string, string[]>;
}

/** The members of an SI family; `.` in `members` stands for the unit without a prefix. */
function family(dimension: Dimension, symbol: string, members: string, options: FamilyOptions): Unit[] {
  const { symbols = [], words = [], also = {} } = options;
  return members.split(' ').map(member => {
    const prefix = prefixes[member];
    const letters = prefix?.spellings ?? [''];
    const short = [symbol, ...symbols].flatMap(stem => letters.map(letter => letter + stem));
    const long = words.map(word => (prefix?.word ?? '') + word);
    return unit(dimension, (prefix?.symbol ?? '') + symbol, {
      power: prefix?.power ?? 0,
      also: [...short, ...long, ...(also[member] ?? [])],
    });
  });
}

function groupBy(rows: readonly Unit[], keysOf: (row: Unit) => readonly string[]): Map<string, Unit[]> {
  const groups = new Map<string, Unit[]>();
  for (const row of rows) {
    for (const key of keysOf(row)) groups.set(key, [...(groups.get(key) ?? []), row]);
  }
  return groups;
}
