import type { SystemView } from '../../analysis/view.ts';
import type { Place } from '../../base/place.ts';

/** Where the part, plug, ground or splice of a point is declared. */
export function placeOfPoint({ system }: SystemView, point: string): Place | undefined {
  const before = (mark: string) => point.slice(0, Math.max(0, point.lastIndexOf(mark)));
  const found =
    system.parts.get(before('.')) ??
    system.connectors.get(before('/')) ??
    system.grounds.get(point) ??
    system.splices.get(point);
  return found?.place;
}
