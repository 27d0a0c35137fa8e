import Papa from 'papaparse';
import type { MeterReading } from '../analysis/electrical.ts';
import type { ValueRow, ValuesTable } from '../analysis/values/table.ts';
import { statesInWords, valueInWords } from '../analysis/values/words.ts';
import { tidy } from '../base/quantity/decimal.ts';

/** The tables as comma-separated values after RFC 4180, a record for each reading, in volts and ohms. */
export function valuesAsCsv(tables: readonly ValuesTable[]): string {
  const records = tables.flatMap(table => [
    ...table.voltages.flatMap(row => recordsOf(row, table, 'voltage')),
    ...table.resistances.flatMap(row => recordsOf(row, table, 'resistance')),
  ]);
  const text = Papa.unparse({ fields, data: records }, { newline: '\r\n', escapeFormulae: startsFormula });
  return `${text}\r\n`;
}

const fields = [
  'variant',
  'measured',
  'red',
  'black',
  'title',
  'same at',
  'state',
  'low',
  'nominal',
  'high',
  'unit',
  'reading',
];

/** What a spreadsheet would calculate; a number with a sign is only a number. */
const startsFormula = /^\s*[=@\t\r＝＋－＠]|^\s*[+-](?!\d+(\.\d+)?(e[+-]?\d+)?$)/i;

function recordsOf({ red, black, title, also, readings }: ValueRow, { variant }: ValuesTable, measured: string) {
  return readings.map(({ states, reading }) => [
    ...[variant, measured, red, black, title, also.join(' '), states.length > 0 ? statesInWords(states) : ''],
    ...numbersOf(reading),
    valueInWords(reading).range,
  ]);
}

function numbersOf(reading: MeterReading): (string | number)[] {
  if (reading.state !== 'number') return ['', '', '', ''];
  const { low, nominal, high, dimension } = reading;
  const written = (value: number) => (Number.isFinite(value) ? tidy(value) : 'OL');
  return [written(low), written(nominal), written(high), dimension === 'resistance' ? 'Ω' : 'V'];
}
