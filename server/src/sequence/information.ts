import type { Core } from './core.ts';
import { type State, weightOf } from './state.ts';

/** In bits times the weight that stands at the state. */
interface Told {
  /** The mutual information between the outcome and the owner. */
  readonly owner: number;
  /** That between the outcome and the item, which is more where a test parts items of one owner. */
  readonly item: number;
}

/**
 * What each test tells at a state. Shannon, "A Mathematical Theory of Communication", Bell System Technical Journal 27, 379-423, 1948:
 * the entropy of the outcome, less that which is left of it when the owner, or the item, is known. Items may be taken together
 * otherwise than by their owner.
 */
export function teller(core: Core, state: State, ownerOf = core.owners): (test: number) => Told {
  const { items, weights } = state;
  const total = weightOf(state);
  const shared = sharedOwners(ownerOf, state);
  const whole = new Float64Array(core.mostOutcomes);
  const byOwner = new Float64Array(shared.sums.length * core.mostOutcomes);

  return place => {
    const { sets, setOf, outcomes } = core.tests[place]!;
    const count = outcomes.length;
    whole.fill(0);
    byOwner.fill(0);
    let [ofItems, ofOwners] = [0, 0];
    for (let i = 0; i < items.length; i++) {
      const set = setOf[items[i]!]!;
      const owner = shared.of[i]!;
      if (set < count) {
        whole[set]! += weights[i]!;
        if (owner >= 0) byOwner[owner * count + set]! += weights[i]!;
        continue;
      }
      const open = sets[set]!;
      const weight = weights[i]! / open.length;
      for (const outcome of open) {
        whole[outcome]! += weight;
        if (owner >= 0) byOwner[owner * count + outcome]! += weight;
      }
      const choice = weights[i]! * Math.log2(open.length);
      ofItems += choice;
      if (owner < 0) ofOwners += choice;
    }
    for (let owner = 0; owner < shared.sums.length; owner++) {
      ofOwners += spread(byOwner, owner * count, count, shared.sums[owner]!);
    }
    const ofOutcome = spread(whole, 0, count, total);
    return { owner: Math.max(0, ofOutcome - ofOwners), item: Math.max(0, ofOutcome - ofItems) };
  };
}

/** How much is not known of the owner, in bits times weight. */
export function entropy(state: State, ownerOf: readonly number[]): number {
  const sums = new Map<number, number>();
  state.items.forEach((item, i) => {
    sums.set(ownerOf[item]!, (sums.get(ownerOf[item]!) ?? 0) + state.weights[i]!);
  });
  return spread([...sums.values()], 0, sums.size, weightOf(state));
}

/** The owners of several items left: for every item its number among them, or -1, and for each of them the weight. */
function sharedOwners(ownerOf: readonly number[], { items, weights }: State): { of: number[]; sums: number[] } {
  const counts = new Map<number, number>();
  for (const item of items) counts.set(ownerOf[item]!, (counts.get(ownerOf[item]!) ?? 0) + 1);
  const numbers = new Map<number, number>();
  const sums: number[] = [];
  const of = items.map((item, i) => {
    const owner = ownerOf[item]!;
    if (counts.get(owner) === 1) return -1;
    const number = numbers.get(owner) ?? sums.push(0) - 1;
    numbers.set(owner, number);
    sums[number]! += weights[i]!;
    return number;
  });
  return { of, sums };
}

/** The entropy of some parts of a whole, in bits times the whole. */
function spread(parts: ArrayLike<number>, from: number, count: number, whole: number): number {
  let bits = 0;
  for (let i = from; i < from + count; i++) {
    const part = parts[i]!;
    if (part > 0 && part < whole) bits -= part * Math.log2(part / whole);
  }
  return bits;
}
