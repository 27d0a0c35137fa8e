import type { Ranged } from '../base/ranged.ts';
import type { PartValue } from './naming.ts';
import { type Element, rangeOf, withRange } from './network.ts';

/**
 * A part of the tolerances: by the name of a tolerance, where between its low end (0) and its high end (1) it may be. What is not named
 * may be anywhere. A tolerance has the name of its element, or the word that ties several elements together.
 */
export type Box = ReadonlyMap<string, readonly [from: number, to: number]>;

export const wholeBox: Box = new Map();

/** The name of the tolerance that an element follows. */
export function toleranceOf(element: Element): string {
  return (element.kind === 'resistance' && element.tied) || element.id;
}

/** The elements with their ranges cut down to the box; a nominal value outside it moves to the nearest end. */
export function inBox(elements: readonly Element[], box: Box): readonly Element[] {
  if (box.size === 0) return elements;
  return elements.map(element => {
    const place = box.get(toleranceOf(element));
    return place ? withRange(element, narrowed(rangeOf(element), place)) : element;
  });
}

export function narrowed({ low, nominal, high }: Ranged, [from, to]: readonly [number, number]): Ranged {
  const width = high - low;
  const [least, most] = [from === 0 ? low : low + from * width, to === 1 ? high : low + to * width];
  return { low: least, nominal: Math.min(most, Math.max(least, nominal)), high: most };
}

/** Where the nominal value lies between the ends, 0 to 1; in the middle where there is no width. */
export function nominalPlace({ low, nominal, high }: Ranged): number {
  return high > low ? (nominal - low) / (high - low) : 0.5;
}

/** The box in two, cut through the middle of one tolerance; nothing where that is no wider than `smallest` any more. */
export function cut(box: Box, tolerance: string, smallest = 0): readonly [lower: Box, upper: Box] | undefined {
  const [from, to] = box.get(tolerance) ?? [0, 1];
  if (to - from <= smallest) return undefined;
  const middle = (from + to) / 2;
  return [
    new Map([...box, [tolerance, [from, middle] as const]]),
    new Map([...box, [tolerance, [middle, to] as const]]),
  ];
}

/** A value for each element whose tolerance the box names; the elements are those of the box. */
export function valuesIn(elements: readonly Element[], box: Box): readonly PartValue[] {
  return elements
    .filter(element => box.has(toleranceOf(element)))
    .map(element => ({ id: element.id, kind: element.kind, value: rangeOf(element).nominal, end: 'nominal' }));
}
