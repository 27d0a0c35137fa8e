import type { StateOf, ValueRow, ValuesTable } from '../analysis/values/table.ts';
import { readingShape } from './reading-json.ts';

/** The tables for other programs; `DEVELOPERS.md` describes the shape. */
export function valuesAsJson(tables: readonly ValuesTable[]): string {
  const shape = {
    version: 1,
    tables: tables.map(({ variant, black, operating, voltages, resistances, leftOut }) => ({
      variant,
      black: black ?? null,
      operating: byName(operating),
      voltages: voltages.map(rowShape),
      resistances: resistances.map(rowShape),
      leftOut,
    })),
  };
  return `${JSON.stringify(shape, undefined, 2)}\n`;
}

function rowShape({ red, black, title, also, readings }: ValueRow) {
  return {
    red,
    black,
    title,
    also,
    readings: readings.map(({ states, reading }) => ({
      states: byName(states),
      reading: readingShape(reading),
    })),
  };
}

function byName(states: readonly StateOf[]): Record<string, string> {
  return Object.fromEntries(states.map(({ name, state }) => [name, state]));
}
