import { type Core, refined } from './core.ts';
import { entropy, teller } from './information.ts';
import { areDisjoint, type State, weightOf } from './state.ts';

/**
 * A bound that no tree gets below, found without looking at any tree.
 *
 * Minutes are counted in layers: a test of 5 minutes lies in the layers 0..2 and 2..5 where another takes 2. In the layer 2..5 all
 * tests of at most 2 minutes are taken to be free, so what they tell is known beforehand: the items fall into classes that they give
 * the same sets. Inside a class only the other tests tell something. Each of them has at most `arity` outcomes, and what has to end
 * apart is known (`groupsIn`), so on average at least as many of them are done as a Huffman code of the groups has digits.
 * Huffman, "A Method for the Construction of Minimum-Redundancy Codes", Proc. IRE 40(9), 1098-1101, 1952.
 */
export class Bound {
  private readonly core: Core;
  private readonly layers: readonly Layer[];

  constructor(core: Core) {
    this.core = core;
    this.layers = layersOf(core);
  }

  /** In minutes times weight, for all that comes down to `state` to go on from there. */
  of(state: State): number {
    let sum = 0;
    for (const layer of this.layers) sum += layer.minutes * digits(layer, state);
    return sum;
  }

  /**
   * A lower bound for what a test and all after it takes, which is found sooner: no code has fewer digits than the entropy that is
   * left. Only the lowest layer is counted.
   */
  after(state: State): (test: number) => number {
    const { core } = this;
    const weight = weightOf(state);
    const [lowest] = this.layers;
    if (!lowest || lowest.classOf.some(inClass => inClass !== 0)) return test => weight * core.tests[test]!.minutes;
    const unknown = entropy(state, lowest.groupOf);
    const tells = teller(core, state, lowest.groupOf);
    const minutesPerBit = lowest.minutes / Math.log2(lowest.arity);
    return test => weight * core.tests[test]!.minutes + minutesPerBit * Math.max(0, unknown - tells(test).owner);
  }
}

interface Layer {
  /** How thick it is. */
  readonly minutes: number;
  readonly arity: number;
  /** For every item its class, and its group inside this: the number of one of the items in it. */
  readonly classOf: readonly number[];
  readonly groupOf: readonly number[];
  /** Room for the weights of the groups, which is asked for too often to be made anew. */
  readonly sums: Float64Array;
}

function layersOf(core: Core): Layer[] {
  const costs = [...new Set([0, ...core.tests.map(test => test.minutes)])].sort((a, b) => a - b);
  const together = endTogether(core);
  const layers: Layer[] = [];
  let classOf: readonly number[] = core.items.map(() => 0);
  for (let i = 1; i < costs.length; i++) {
    const [below, minutes] = [costs[i - 1]!, costs[i]!];
    classOf = core.tests.filter(test => test.minutes === below).reduce<readonly number[]>(refined, classOf);
    const groupOf = groupsIn(classOf, together);
    if (new Set(groupOf).size === new Set(classOf).size) break;
    const arity = Math.max(...core.tests.filter(test => test.minutes > below).map(test => test.outcomes.length));
    layers.push({ minutes: minutes - below, arity, classOf, groupOf, sums: new Float64Array(core.items.length) });
  }
  return layers;
}

/**
 * The finest groups inside the classes such that what ends together, of one class, lies in one of them. An ending of several owners
 * holds only items that no test surely parts wherever their owners differ; one of a single owner, only items of this owner. So items
 * that are joined by either stay together.
 */
function groupsIn(classOf: readonly number[], together: (a: number, b: number) => boolean): number[] {
  const groupOf = classOf.map((_, item) => item);
  classOf.forEach((inClass, item) => {
    for (let other = 0; other < item; other++) {
      if (classOf[other] !== inClass || groupOf[other] === groupOf[item] || !together(item, other)) continue;
      const [kept, gone] = [groupOf[other]!, groupOf[item]!];
      for (let i = 0; i <= item; i++) if (groupOf[i] === gone) groupOf[i] = kept;
    }
  });
  return groupOf;
}

function endTogether({ items, tests }: Core): (a: number, b: number) => boolean {
  const sameOwner = (a: number, b: number) => items[a]!.owner === items[b]!.owner;
  // No two items are the same to every test, so where each shows one outcome, some test surely parts them.
  if (!tests.some(test => test.open)) return sameOwner;
  const size = items.length;
  const parted = new Uint8Array(size * size);
  for (let a = 0; a < size; a++) {
    for (let b = 0; b < a; b++) if (tests.some(test => areDisjoint(test, a, b))) parted[a * size + b] = 1;
  }
  return (a, b) => sameOwner(a, b) || parted[Math.max(a, b) * size + Math.min(a, b)] === 0;
}

/** The digits that Huffman codes of the groups have, class by class, times weight. */
function digits({ classOf, groupOf, arity, sums }: Layer, { items, weights }: State): number {
  for (const item of items) sums[groupOf[item]!] = -1;
  const groups: number[] = [];
  for (let i = 0; i < items.length; i++) {
    const group = groupOf[items[i]!]!;
    if (sums[group] === -1) {
      groups.push(group);
      sums[group] = 0;
    }
    sums[group]! += weights[i]!;
  }
  sort(groups, (a, b) => classOf[a]! - classOf[b]! || sums[a]! - sums[b]!);
  let sum = 0;
  for (let from = 0, to = 0; from < groups.length; from = to) {
    while (to < groups.length && classOf[groups[to]!] === classOf[groups[from]!]) to++;
    if (to - from > 1) {
      const inClass = groups.slice(from, to).map(group => sums[group]!);
      sum += huffman(inClass, arity);
    }
  }
  return sum;
}

/** Sorts by insertion, for items stand heaviest first, so that their groups nearly do, and need but be turned round. */
function sort(groups: number[], compare: (a: number, b: number) => number): void {
  groups.reverse();
  for (let i = 1; i < groups.length; i++) {
    const group = groups[i]!;
    let at = i;
    for (; at > 0 && compare(groups[at - 1]!, group) > 0; at--) groups[at] = groups[at - 1]!;
    groups[at] = group;
  }
}

/** The mean number of digits of the best prefix code, times the sum of the weights, which stand in ascending order. */
export function huffman(weights: readonly number[], arity: number): number {
  const merged: number[] = [];
  let [leaf, node, sum] = [0, 0, 0];
  const least = () => {
    const isLeaf = node >= merged.length || (leaf < weights.length && weights[leaf]! <= merged[node]!);
    return isLeaf ? weights[leaf++]! : merged[node++]!;
  };
  // The first merge takes only so many that every later one is full.
  let take = ((weights.length - 2) % (arity - 1)) + 2;
  for (let left = weights.length; left > 1; left -= take - 1, take = arity) {
    let weight = 0;
    for (let i = 0; i < take; i++) weight += least();
    merged.push(weight);
    sum += weight;
  }
  return sum;
}
