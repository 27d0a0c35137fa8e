import { leadNode } from '../../analysis/lower/leads.ts';
import { wire } from '../../analysis/lower/wiring.ts';
import { leadTo } from '../../model/lead.ts';
import type { Bench } from '../bench.ts';

/** Whether a point lies inside a plug while everything is together. */
export function leadNeedsBackProbe({ system, variant, circuit }: Bench, point: string): boolean {
  return typeof leadNode(wire(system, variant), leadTo(point, { backProbe: false }), circuit.rest) === 'object';
}
