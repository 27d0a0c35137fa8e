import type { Wiring } from './lower/wiring.ts';

/** A datum of a module. */
export interface NamedDatum {
  readonly module: string;
  readonly datum: string;
  /** It shows a state and not a number. */
  readonly isState: boolean;
}

/** What `A1 keypad` names. Both names may hold blanks, so every cut is tried. */
export function datumNamed({ parts }: Wiring, name: string): NamedDatum | undefined {
  for (const { part, data } of parts) {
    if (data.kind !== 'module' || !name.startsWith(`${part.id} `)) continue;
    const datum = name.slice(part.id.length + 1);
    const found = data.scanData.get(datum);
    if (found) return { module: part.id, datum, isState: found.states.length > 0 || found.follows !== undefined };
  }
  return undefined;
}
