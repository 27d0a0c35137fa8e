import type { MeterReading, ParallelPath } from '../analysis/electrical.ts';
import { tidy } from '../base/quantity/decimal.ts';
import type { Dimension } from '../base/quantity/dimension.ts';
import type { PartValue } from '../circuit/reading.ts';

/** A reading for other programs, in V, Ω or A. `DEVELOPERS.md` describes the shape. */
export type ReadingShape = { readonly kind: string } & Readonly<Record<string, unknown>>;

export function readingShape(reading: MeterReading): ReadingShape {
  switch (reading.state) {
    case 'number': {
      const { dimension, low, nominal, high, exact, lowAt, highAt, shows } = reading;
      return {
        kind: 'number',
        unit: units[dimension] ?? '',
        low: tidy(low),
        nominal: ohmsOrOpen(nominal),
        high: ohmsOrOpen(high),
        exact,
        lowAt: lowAt.map(valueShape),
        highAt: highAt.map(valueShape),
        ...(shows && { shows }),
      };
    }
    case 'no contact':
      return { kind: reading.state, lead: reading.lead, why: reading.reason.kind };
    default: {
      const { state, ...rest } = reading;
      return { kind: state, ...rest };
    }
  }
}

/** What a resistance is read through beside what the leads stand on; `alone` is `null` for a part that is open. */
export function parallelShape({ meant, through, aloneOhms }: ParallelPath) {
  return { of: meant, alone: ohmsOrOpen(aloneOhms), through };
}

/** `null` where there is no end to the ohms: no JSON number says that. */
function ohmsOrOpen(value: number): number | null {
  return Number.isFinite(value) ? tidy(value) : null;
}

function valueShape({ id, kind, value }: PartValue) {
  return { name: id, value: tidy(value), unit: units[kind] };
}

const units: Partial<Record<Dimension, string>> = { voltage: 'V', resistance: 'Ω', current: 'A' };
