import type { Core, CoreTest } from './core.ts';
import type { State } from './state.ts';

/**
 * What one test tells, in bits times the weight that stands at `state`.
 *
 * `owner` is the mutual information between the outcome and the owner, which is what has to be known in the end; `item` that between
 * the outcome and the item, which is more where the test also parts items of one owner. Shannon, "A Mathematical Theory of
 * Communication", Bell System Technical Journal 27, 379-423, 1948.
 */
export function bits({ items }: Core, state: State, test: CoreTest): { owner: number; item: number } {
  const whole = new Float64Array(test.outcomes.length);
  const byOwner = new Map<number, Float64Array>();
  let [total, itemChoice] = [0, 0];
  state.items.forEach((item, i) => {
    const set = test.sets[test.setOf[item]!]!;
    const owner = items[item]!.owner;
    const weight = state.weights[i]!;
    const own = byOwner.get(owner) ?? new Float64Array(whole.length);
    byOwner.set(owner, own);
    for (const outcome of set) {
      whole[outcome]! += weight / set.length;
      own[outcome]! += weight / set.length;
    }
    total += weight;
    itemChoice += weight * Math.log2(set.length);
  });
  const outcome = spread(whole, total);
  let ownerChoice = 0;
  for (const own of byOwner.values()) ownerChoice += spread(own, sum(own));
  return { owner: Math.max(0, outcome - ownerChoice), item: Math.max(0, outcome - itemChoice) };
}

/** The entropy of parts of a whole, in bits times the whole. */
function spread(parts: Float64Array, whole: number): number {
  let bits = 0;
  for (const part of parts) if (part > 0) bits -= part * Math.log2(part / whole);
  return bits;
}

function sum(parts: Float64Array): number {
  let sum = 0;
  for (const part of parts) sum += part;
  return sum;
}
