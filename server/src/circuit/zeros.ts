import { exact } from '../base/ranged.ts';
import type { Branch, Core, Part } from './core.ts';
import { type NumberReading, numberReading, type Reading } from './display.ts';
import type { PartValue } from './naming.ts';
import { type Network, rangeOf, withRange } from './network.ts';

/** With more branches than this that may be nothing at all, their combinations are not gone through any more. */
const MOST_COMBINATIONS = 6;

/**
 * Reads a network in which some branches may have no resistance at all. At that end a branch is an ideal connection and
 * the network another one; the extremes still lie at corners, so it is enough to read both networks of each such branch.
 * `readVariant` reads a network that has fewer such branches.
 */
export function readThroughZeros(
  network: Network,
  core: Core,
  zeros: readonly Branch[],
  readVariant: (variant: Network) => Reading,
): Reading {
  const nominal = readVariant(atNominal(network));
  if (nominal.state !== 'number') return nominal;
  const tooMany = zeros.length > MOST_COMBINATIONS;
  const settled = (tooMany ? zeros : zeros.slice(0, 1)).flatMap(branch => membersOf(branch.part));
  const variants: NumberReading[] = [];
  for (const end of ['low', 'high'] as const) {
    const reading = readVariant(at(network, settled, end));
    if (reading.state !== 'number') return reading;
    const named = settled.map((part): PartValue => ({ id: part.id, kind: 'resistance', value: part.ohms[end], end }));
    variants.push({ ...reading, lowAt: [...reading.lowAt, ...named], highAt: [...reading.highAt, ...named] });
  }
  const [low, high] = [pick(variants, 'low', -1), pick(variants, 'high', 1)];
  const gain = tooMany ? withoutGain(core) : Number.NEGATIVE_INFINITY;
  return numberReading(
    nominal.nominal,
    { ...low, bound: Math.min(low.bound, -gain) },
    { ...high, bound: Math.max(high.bound, gain) },
  );
}

/** The variant that reaches furthest, and the furthest bound of all. */
function pick(variants: readonly NumberReading[], end: 'low' | 'high', direction: number) {
  const furthest = variants.reduce((best, next) =>
    direction * (next.attained[end] - best.attained[end]) > 0 ? next : best,
  );
  const bound = direction * Math.max(...variants.map(variant => direction * variant[end]));
  return { attained: furthest.attained[end], bound, at: end === 'low' ? furthest.lowAt : furthest.highAt };
}

/** Resistances never amplify: no voltage between two nodes passes the sum of the source voltages. */
function withoutGain(core: Core): number {
  if (!core.leads || core.sources.some(source => source.injected.length > 0)) return Number.POSITIVE_INFINITY;
  return core.sources.reduce((sum, { range }) => sum + Math.max(Math.abs(range.low), Math.abs(range.high)), 0);
}

function membersOf(part: Part): Extract<Part, { kind: 'element' }>[] {
  return part.kind === 'element' ? [part] : part.parts.flatMap(membersOf);
}

function at(network: Network, parts: readonly { id: string }[], end: 'low' | 'high'): Network {
  const ids = new Set(parts.map(part => part.id));
  const elements = network.elements.map(element =>
    ids.has(element.id) ? withRange(element, exact(rangeOf(element)[end])) : element,
  );
  return { ...network, elements };
}

function atNominal(network: Network): Network {
  return { ...network, elements: network.elements.map(e => withRange(e, exact(rangeOf(e).nominal))) };
}
