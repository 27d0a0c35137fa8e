import type { Wiring } from './lower/wiring.ts';

/** A datum of a module. */
export interface NamedDatum {
  readonly module: string;
  readonly datum: string;
}

/** What `A1 keypad` names. Both names may hold blanks, so every cut is tried. */
export function datumNamed({ parts }: Wiring, name: string): NamedDatum | undefined {
  for (const { part, data } of parts) {
    if (data.kind !== 'module' || !name.startsWith(`${part.id} `)) continue;
    const datum = name.slice(part.id.length + 1);
    if (data.scanData.has(datum)) return { module: part.id, datum };
  }
  return undefined;
}
