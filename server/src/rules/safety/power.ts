import type { Situation } from '../../analysis/situation.ts';
import type { Case } from '../../analysis/view.ts';
import type { Place } from '../../base/place.ts';
import { existsIn } from '../../model/common.ts';
import { partIn } from '../../model/parts.ts';
import type { Meter } from '../../model/procedure.ts';
import type { Lead } from '../../model/step.ts';

/** Less than this leaves no mark on a contact that opens (common practice, no source). */
export const mostAmperes = 0.05;

/** Whether a module has its supply, though it may draw next to nothing. */
export function isPowered({ system, variant, circuit }: Case, id: string, now: Situation, meter: Meter): boolean {
  const part = system.parts.get(id);
  const data = part && existsIn(part, variant) ? partIn(part, variant) : undefined;
  if (!part || data?.kind !== 'module' || !data.powered) return false;
  const { pin, aboveV } = data.powered;
  const ground = data.ground ? `${id}.${data.ground.text}` : [...system.grounds.keys()][0];
  if (ground === undefined) return false;
  const { place } = part;
  const at = {
    measure: 'voltage',
    measurePlace: place,
    red: lead(`${id}.${pin.text}`, place),
    black: lead(ground, place),
  } as const;
  const reading = circuit.read(at, meter, now);
  return reading.state === 'number' && reading.nominal > aboveV;
}

function lead(point: string, place: Place): Lead {
  return { place, point: { text: point, place }, backProbe: true };
}
