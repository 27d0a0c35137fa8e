import { leadNode } from '../../analysis/lower/leads.ts';
import { wire } from '../../analysis/lower/wiring.ts';
import type { Bench } from '../bench.ts';

const nowhere = { uri: '', span: { unit: { text: '' }, start: 0, end: 0 } };

/** Whether a point lies inside a plug while everything is together. */
export function leadNeedsBackProbe({ system, variant, circuit }: Bench, point: string): boolean {
  const node = leadNode(
    wire(system, variant),
    { place: nowhere, point: { text: point, place: nowhere }, backProbe: false },
    circuit.rest,
  );
  return typeof node === 'object';
}
