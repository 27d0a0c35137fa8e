import { computedAt } from '../../analysis/readings.ts';
import { formatRange } from '../../base/quantity/format.ts';
import type { Candidate } from './candidate.ts';
import type { Scene } from './scene.ts';
import type { Spot } from './spot.ts';

/** The circuit's own range over all variants, as the limit of a measuring step. */
export function circuitRange({ replace, prefix }: Spot, scene: Scene): Candidate[] {
  const { view, step: id } = scene;
  const isLimit = scene.above[0] === 'limits';
  const step = id === undefined ? undefined : scene.procedure?.steps.get(id);
  if (!isLimit || !step || view.kind !== 'procedure') return [];
  const readings = computedAt(view, step).map(({ reading }) => reading);
  const numbers = readings.flatMap(reading => (reading.state === 'number' ? [reading] : []));
  if (numbers.length === 0 || numbers.length < readings.length) return [];
  const low = Math.min(...numbers.map(reading => reading.low));
  const high = Math.max(...numbers.map(reading => reading.high));
  const text = formatRange(low, high, numbers[0].dimension, 'outward');
  return [
    {
      label: text,
      kind: 'value',
      detail: "the circuit's own range",
      insert: prefix + text,
      isSnippet: false,
      replace,
      first: true,
      documentation: () => 'Over all tolerances and the supply, in every variant in which the step exists.',
    },
  ];
}
