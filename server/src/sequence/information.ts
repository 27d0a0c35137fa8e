import type { Core } from './core.ts';
import { type State, weightOf } from './state.ts';

/** In bits times the weight that stands at the state. */
interface Told {
  /** The mutual information between the outcome and the owner, which is what has to be known in the end. */
  readonly owner: number;
  /** That between the outcome and the item, which is more where a test parts items of one owner. */
  readonly item: number;
}

/**
 * What each test tells at a state. Shannon, "A Mathematical Theory of Communication", Bell System Technical Journal 27, 379-423, 1948:
 * the entropy of the outcome, less that which is left of it when the owner, or the item, is known.
 */
export function teller(core: Core, state: State): (test: number) => Told {
  const { items, weights } = state;
  const total = weightOf(state);
  const shared = sharedOwners(core, state);
  const whole = new Float64Array(core.mostOutcomes);
  const byOwner = new Float64Array(shared.sums.length * core.mostOutcomes);

  return place => {
    const { sets, setOf, outcomes } = core.tests[place]!;
    const count = outcomes.length;
    whole.fill(0);
    byOwner.fill(0);
    let [ofItems, ofOwners] = [0, 0];
    for (let i = 0; i < items.length; i++) {
      const set = sets[setOf[items[i]!]!]!;
      const weight = weights[i]! / set.length;
      const owner = shared.of[i]!;
      for (const outcome of set) {
        whole[outcome]! += weight;
        if (owner >= 0) byOwner[owner * count + outcome]! += weight;
      }
      if (set.length === 1) continue;
      const choice = weights[i]! * Math.log2(set.length);
      ofItems += choice;
      if (owner < 0) ofOwners += choice;
    }
    shared.sums.forEach((sum, owner) => {
      ofOwners += spread(byOwner, owner * count, count, sum);
    });
    const ofOutcome = spread(whole, 0, count, total);
    return { owner: Math.max(0, ofOutcome - ofOwners), item: Math.max(0, ofOutcome - ofItems) };
  };
}

/** The owners of several items left: for every item its number among them, or -1, and for each of them the weight. */
function sharedOwners(core: Core, { items, weights }: State): { of: number[]; sums: number[] } {
  const counts = new Map<number, number>();
  for (const item of items) counts.set(core.items[item]!.owner, (counts.get(core.items[item]!.owner) ?? 0) + 1);
  const numbers = new Map<number, number>();
  const sums: number[] = [];
  const of = items.map((item, i) => {
    const { owner } = core.items[item]!;
    if (counts.get(owner) === 1) return -1;
    const number = numbers.get(owner) ?? sums.push(0) - 1;
    numbers.set(owner, number);
    sums[number]! += weights[i]!;
    return number;
  });
  return { of, sums };
}

/** The entropy of some parts of a whole, in bits times the whole. */
function spread(parts: Float64Array, from: number, count: number, whole: number): number {
  let bits = 0;
  for (let i = from; i < from + count; i++) {
    const part = parts[i]!;
    if (part > 0 && part < whole) bits -= part * Math.log2(part / whole);
  }
  return bits;
}
