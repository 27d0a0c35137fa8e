import { type Core, type CoreTest, refined } from './core.ts';

/** Where one stands on a way through the tests. */
export interface State {
  /** What is left, as places in `Core.items`, ascending. */
  readonly items: readonly number[];
  /** For each of them the weight that has come down this way. */
  readonly weights: readonly number[];
  /** The tests done on this way that gave some item its choice, as places in `Core.tests`, ascending. No other test done matters. */
  readonly used: readonly number[];
}

export function start(core: Core): State {
  return { items: core.items.map((_, item) => item), weights: core.items.map(item => item.weight), used: [] };
}

/** Equal for two states of one core if and only if they are the same; the weights follow from the rest. */
export function keyOf({ items, used }: State): string {
  const key = String.fromCharCode(...items);
  return used.length === 0 ? key : `${key}\uffff${String.fromCharCode(...used)}`;
}

export function weightOf({ weights }: State): number {
  let sum = 0;
  for (const weight of weights) sum += weight;
  return sum;
}

export function hasOneOwner(core: Core, { items }: State): boolean {
  return !differ(core.owners, items);
}

/** Whether the items left have different ones of some numbers. */
function differ(of: readonly number[], items: readonly number[]): boolean {
  const first = of[items[0]!];
  for (const item of items) if (of[item] !== first) return true;
  return false;
}

/** Where each outcome of a test leads to, one state for each outcome of the test; undefined for one that nothing left can give. */
export function split(core: Core, state: State, place: number): (State | undefined)[] {
  const { outcomes, sets, setOf, open } = core.tests[place]!;
  const items: number[][] = outcomes.map(() => []);
  const weights: number[][] = outcomes.map(() => []);
  for (let i = 0; i < state.items.length; i++) {
    const item = state.items[i]!;
    const set = sets[setOf[item]!]!;
    for (const outcome of set) {
      items[outcome]!.push(item);
      weights[outcome]!.push(state.weights[i]! / set.length);
    }
  }
  const used = open ? [...state.used, place].sort((a, b) => a - b) : state.used;
  return items.map((left, outcome) =>
    left.length > 0 ? { items: left, weights: weights[outcome]!, used: stillOpen(core, left, used) } : undefined,
  );
}

function stillOpen({ tests }: Core, items: readonly number[], used: readonly number[]): readonly number[] {
  if (used.length === 0) return used;
  return used.filter(place => {
    const { sets, setOf } = tests[place]!;
    return items.some(item => sets[setOf[item]!]!.length > 1);
  });
}

/**
 * The tests worth doing here by the rule of `Problem`, as places in `Core.tests`, ascending. Of those that would do the same to what is
 * left, only that of the fewest minutes.
 */
export function worthDoing(core: Core, state: State): number[] {
  if (hasOneOwner(core, state)) return [];
  const quickest = new Map<number, number>();
  const others: number[] = [];
  const tried = triedTogether(core, state);
  core.tests.forEach((test, place) => {
    if (!isWorthDoing(core, state, test, tried)) return;
    const effect = effectOf(core, state, test);
    const known = effect === undefined ? undefined : quickest.get(effect);
    if (effect === undefined) others.push(place);
    else if (known === undefined || test.minutes < core.tests[known]!.minutes) quickest.set(effect, place);
  });
  return [...quickest.values(), ...others].sort((a, b) => a - b);
}

function isWorthDoing(core: Core, { items, used }: State, test: CoreTest, tried: readonly number[]): boolean {
  const { setOf } = test;
  if (!differ(setOf, items)) return false;
  // Where every pair of different owners got one set, all items would have it; and nothing has tried its luck yet.
  if (used.length === 0 || !test.open) return true;
  for (let i = 1; i < items.length; i++) {
    const a = items[i]!;
    for (let j = 0; j < i; j++) {
      const b = items[j]!;
      if (setOf[a] === setOf[b] || core.owners[a] === core.owners[b]) continue;
      if (tried[i] === tried[j] || areDisjoint(test, a, b)) return true;
    }
  }
  return false;
}

/** For each item left a number that is equal where no test on this way has tried to part two. */
function triedTogether({ tests }: Core, { items, used }: State): readonly number[] {
  const none: readonly number[] = items.map(() => 0);
  return used.reduce((classOf, place) => {
    const { setOf, sets } = tests[place]!;
    return refined(classOf, { setOf: items.map(item => setOf[item]!), sets });
  }, none);
}

/**
 * A number that is equal only for tests that give the items left the same sets, but for how outcomes are numbered: set by set, a bit
 * for each outcome, in the order in which they appear. None where so many bits do not fit into a number.
 */
function effectOf({ mostOutcomes }: Core, { items }: State, { sets, setOf, outcomes }: CoreTest): number | undefined {
  if (items.length * mostOutcomes > 53) return undefined;
  const room = 2 ** mostOutcomes;
  const bits = outcomes.map(() => 0);
  let [next, effect] = [1, 0];
  for (const item of items) {
    let set = 0;
    for (const outcome of sets[setOf[item]!]!) {
      if (bits[outcome] === 0) {
        bits[outcome] = next;
        next *= 2;
      }
      set += bits[outcome]!;
    }
    effect = effect * room + set;
  }
  return effect;
}

/** Whether a test parts two items whatever the tolerances are. */
export function areDisjoint({ sets, setOf }: CoreTest, a: number, b: number): boolean {
  const other = sets[setOf[b]!]!;
  return !sets[setOf[a]!]!.some(outcome => other.includes(outcome));
}
