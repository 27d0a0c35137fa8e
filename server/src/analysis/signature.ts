import type { System } from '../model/system.ts';

/**
 * Text that is equal for two systems exactly when their circuits are: all that is electrical, without places, titles and notes.
 * A circuit is kept across edits that leave it equal.
 */
export function signature(system: System): string {
  const { conditions, parts, connectors, grounds, splices, wires, temperatureC } = system;
  const all = [conditions, parts, connectors, grounds, [...splices.keys()], wires, temperatureC];
  return JSON.stringify(all, (key, value) => {
    if (silent.has(key)) return undefined;
    return value instanceof Map ? [...value] : value;
  });
}

const silent = new Set(['place', 'entry', 'title', 'ref', 'colour', 'hazards', 'accessMin', 'beside', 'needs']);
