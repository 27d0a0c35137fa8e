import type { StateOf, ValueRow, ValuesTable } from '../analysis/values/table.ts';
import type { System } from '../model/system.ts';
import { readingShape } from './reading-json.ts';

/** The tables for other programs; `DEVELOPERS.md` describes the shape. */
export function valuesAsJson(system: System, tables: readonly ValuesTable[]): string {
  const shape = {
    version: 1,
    tables: tables.map(({ variant, black, operating, voltages, resistances, leftOut }) => ({
      variant,
      black: black ?? null,
      operating: byName(operating),
      voltages: voltages.map(row => rowShape(row, system)),
      resistances: resistances.map(row => rowShape(row, system)),
      leftOut,
    })),
  };
  return `${JSON.stringify(shape, undefined, 2)}\n`;
}

function rowShape({ red, black, title, also, readings }: ValueRow, system: System) {
  return {
    red,
    black,
    title,
    also,
    readings: readings.map(({ states, reading }) => ({
      states: byName(states),
      reading: readingShape(reading, system),
    })),
  };
}

function byName(states: readonly StateOf[]): Record<string, string> {
  return Object.fromEntries(states.map(({ name, state }) => [name, state]));
}
