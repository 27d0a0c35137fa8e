import { holdPieces } from '../circuit/bends/holding.ts';
import { dropIn, dropOf, type Holding, neighbours, segmentOf, straighten } from '../circuit/bends/straighten.ts';
import { type Box, cut, nominalPlace, toleranceOf, valuesIn, wholeBox } from '../circuit/box.ts';
import { type Element, type Network, rangeOf, withElements } from '../circuit/network.ts';
import { quickLook } from '../circuit/quick-look.ts';
import type { NumberReading, PartValue } from '../circuit/reading.ts';
import { type Decision, decideBent, decideOutputs, decideSense, isOn, type Moment } from './decide.ts';
import type { Effect } from './effect.ts';
import type { Turn } from './electrical.ts';
import { type Lowered, lower } from './lower/network.ts';
import type { Wiring } from './lower/wiring.ts';
import type { Situation } from './situation.ts';

/** One consistent state of the relays, modules, outputs and bent parts, with the straight network that it makes. */
export interface Settled extends Lowered {
  /** The same with its bent parts as they are, and all their values. */
  readonly bent: Network;
  /** The same as it was when its states were decided: what is open lets next to nothing through. */
  readonly leaky: Network;
  /** 1 for what is pulled in, powered, on; the segment of a bent part. */
  readonly states: ReadonlyMap<string, number>;
  /** Where tolerances were cut to tell states apart: a value on this side of the cut for each. */
  readonly cut: readonly PartValue[];
  /** Every value in the ranges of the network leads to this state; else only some do, and which is not known. */
  readonly sure: boolean;
  /** Whether all of it surely stays as it is with these elements in the network, over the same tolerances. */
  readonly staysWith: (extra: readonly Element[]) => boolean;
}

export type Settling =
  /** The first is the one at nominal values; there are more where tolerances leave something undecided. */
  | { readonly settled: readonly Settled[] }
  /** These undo their own cause. */
  | { readonly restless: readonly Turn[] }
  /** Tolerances leave so many of these open that not every case could be looked at. */
  | { readonly undecided: readonly string[] };

export interface Around {
  /** A meter in series, a lamp held to a point. */
  readonly extra?: readonly Element[];
  readonly effect?: Effect;
  /** Relays and outputs that were on before, and stay so unless something turns them off. */
  readonly held?: ReadonlySet<string>;
}

/** Pieces that the box of tolerances is cut into before what is left undecided counts as either way. */
const mostBoxes = 10;
/** More undecided names than this are not looked at both ways; each doubles the networks. */
const mostPinned = 5;
/** A tolerance is not cut into pieces smaller than this part of it. */
const smallestCut = 1 / 128;

/**
 * Finds what relays, modules, operating rules and bent parts do: from everything at rest, each is decided by the readings of the network
 * that the others make, until nothing changes. What the tolerances leave undecided splits them: a half of the tolerance with most say is
 * looked at by itself, for a changing state is where the ends of a reading need not be corners. What still is undecided in a small piece is looked at both ways.
 */
export function settle(wiring: Wiring, situation: Situation, around: Around = {}): Settling {
  const settled: Settled[] = [];
  const waiting: Case[] = [{ box: wholeBox, pinned: new Map() }];
  let boxes = 1;
  while (waiting.length > 0) {
    const one = waiting.shift()!;
    const outcome = iterate(wiring, situation, around, one);
    if ('restless' in outcome) return outcome;
    const { reached, undecided } = outcome;
    for (const [name, segment] of reached.beyond)
      waiting.push({ ...one, pinned: new Map([...one.pinned, [name, segment]]) });
    const [first] = undecided;
    if (!first) {
      settled.push({ ...reached.settled, sure: one.pinned.size === 0 });
      continue;
    }
    const halves =
      boxes < mostBoxes && one.pinned.size === 0 ? split(one.box, first, reached.settled.network) : undefined;
    if (halves) {
      boxes++;
      waiting.unshift(...halves.map(box => ({ box, pinned: one.pinned })));
    } else if (one.pinned.size < mostPinned) {
      waiting.unshift(
        ...first.options.map(option => ({ ...one, pinned: new Map([...one.pinned, [first.name, option]]) })),
      );
    } else {
      return { undecided: [...one.pinned.keys(), ...undecided.map(({ name }) => name)].sort() };
    }
  }
  return { settled };
}

/** A part of the tolerances, and what some names are taken to do in it. */
interface Case {
  readonly box: Box;
  readonly pinned: ReadonlyMap<string, number>;
}

interface Reached {
  readonly settled: Omit<Settled, 'sure'>;
  /** Segments that a pinned part would go on to from the one it is pinned to. */
  readonly beyond: readonly (readonly [string, number])[];
}

type Iteration = { reached: Reached; undecided: readonly Decision[] } | { restless: readonly Turn[] };

function iterate(wiring: Wiring, situation: Situation, around: Around, { box, pinned }: Case): Iteration {
  const { extra = [], effect, held: stillOn = new Set<string>() } = around;
  const fixed = new Map([...pinned, ...(effect?.fixed ?? [])]);
  let states: ReadonlyMap<string, number> = new Map([
    ...[...stillOn].map((name): [string, number] => [name, 1]),
    ...alwaysOn(wiring),
    ...fixed,
  ]);
  const seen = new Map<string, number>();
  const history: ReadonlyMap<string, number>[] = [];
  // What was on before stays on until all that feeds it has come on as well, and only then has to keep itself.
  let waiting: ReadonlySet<string> = stillOn;
  // What was open on the way and stays as it is once it is on: machines that did not turn it on then have it off at the end.
  const openBefore = new Map<string, Decision>();
  for (;;) {
    const key = [...states]
      .filter(([, state]) => state !== 0)
      .map(([name, state]) => `${name}=${state}`)
      .sort()
      .join(';');
    const before = seen.get(key);
    if (before !== undefined) return { restless: circleOf(history.slice(before)) };
    seen.set(key, history.length);
    history.push(states);

    const plain = lower(wiring, situation, name => isOn(states, name));
    const lowered = effect ? effect.change(plain) : plain;
    const bent = withElements(lowered.network, extra);
    const pieces = (taken: ReadonlyMap<string, number>) => holdPieces(bent, pinnedBends(bent, taken), box);
    const held = pieces(fixed);
    const holding = held?.holding ?? new Map<string, number>();
    const now: ReadonlyMap<string, number> = new Map([...states, ...holding]);
    const moment: Moment = {
      wiring,
      situation,
      network: held?.network ?? straighten(bent, holding, box, true),
      states: now,
    };
    const decisions = decideAll(moment, lowered, bent, box);

    const next = new Map(now);
    for (const { name, nominal } of decisions) next.set(name, fixed.get(name) ?? (waiting.has(name) ? 1 : nominal));
    for (const sense of lowered.senses) {
      if ('bend' in sense) next.set(sense.name, fixed.get(sense.name) ?? Math.min(next.get(sense.bend) ?? 0, 1));
    }
    const free = decisions.filter(({ name }) => !fixed.has(name) && !waiting.has(name));
    for (const one of free) if (one.stays && one.options.length > 1) openBefore.set(one.name, one);
    if (isSame(next, now) && waiting.size > 0) {
      waiting = new Set();
      seen.clear();
      history.length = 0;
    } else if (isSame(next, now)) {
      const undecided = free.filter(({ options }) => options.length > 1);
      // A piece that was taken for a neighbour may itself be left on its far side.
      const beyond = decisions.flatMap(({ name, options }) => {
        const pin = pinned.get(name);
        if (pin === undefined || !holding.has(name)) return [];
        const started = pieces(effect?.fixed ?? new Map())?.holding.get(name) ?? pin;
        const further = options.filter(option => Math.abs(option - started) > Math.abs(pin - started));
        return further.map(option => [name, option] as const);
      });
      const network = holding.size === 0 ? moment.network : straighten(bent, holding, box);
      const staysWith = (more: readonly Element[]) => {
        const loaded = { ...moment, network: withElements(moment.network, more) };
        return decideAll(loaded, lowered, bent, box).every(
          ({ name, options }) =>
            effect?.fixed.has(name) || (options.length === 1 && options[0] === (now.get(name) ?? 0)),
        );
      };
      return {
        reached: {
          settled: {
            ...lowered,
            network,
            bent,
            leaky: moment.network,
            states: now,
            cut: [...valuesIn(network.elements, box), ...dropsOfOpen(bent, holding, moment.network, box)],
            staysWith,
          },
          beyond,
        },
        undecided: [...undecided.filter(({ name }) => !openBefore.has(name)), ...openBefore.values()],
      };
    }
    states = next;
  }
}

function decideAll(moment: Moment, lowered: Lowered, bent: Network, box: Box): readonly Decision[] {
  return [
    ...lowered.senses.flatMap(sense => ('bend' in sense ? [] : [decideSense(moment, sense)])),
    ...moment.wiring.parts.flatMap(({ part, data }) =>
      data.kind === 'module' ? decideOutputs(moment, part.id, data) : [],
    ),
    ...(bent.bends ?? []).map(one => decideBent(moment, one, moment.states, box)),
  ];
}

/** An open part is no element, yet it is open because of the drop of the piece towards which its voltage lies. */
function dropsOfOpen(bent: Network, holding: Holding, leaky: Network, box: Box): readonly PartValue[] {
  return (bent.bends ?? []).flatMap(one => {
    const id = dropOf(one.id);
    if (!box.has(id) || segmentOf(one, holding).kind !== 'open') return [];
    const across = quickLook(leaky)?.between(one.a, one.b) ?? 0;
    const next = neighbours(one, holding)[across < 0 ? 0 : 1];
    return next ? [{ id, kind: 'voltage', value: dropIn(one, next, box).nominal, end: 'nominal' }] : [];
  });
}

/** Modules that need no feed of their own. */
function alwaysOn(wiring: Wiring): readonly (readonly [string, number])[] {
  return wiring.parts.flatMap(({ part, data }) =>
    data.kind === 'module' && !data.powered ? [[part.id, 1] as const] : [],
  );
}

function pinnedBends({ bends = [] }: Network, fixed: ReadonlyMap<string, number>): ReadonlyMap<string, number> {
  return new Map(bends.flatMap(({ id }) => (fixed.has(id) ? [[id, fixed.get(id)!] as const] : [])));
}

function isSame(a: ReadonlyMap<string, number>, b: ReadonlyMap<string, number>): boolean {
  return [...a.keys(), ...b.keys()].every(name => (a.get(name) ?? 0) === (b.get(name) ?? 0));
}

/** What changes from each round of the circle to the next; the last round leads back to the first. */
function circleOf(circle: readonly ReadonlyMap<string, number>[]): readonly Turn[] {
  return circle.flatMap((states, i) => {
    const next = circle[(i + 1) % circle.length]!;
    return [...new Set([...states.keys(), ...next.keys()])]
      .filter(name => (states.get(name) ?? 0) !== (next.get(name) ?? 0))
      .sort()
      .map(name => ({ name, on: isOn(next, name) }));
  });
}

/** The box in two, cut through the tolerance that has most say in the decision; the half with the nominal values first. */
function split(box: Box, { readings }: Decision, network: Network): readonly Box[] | undefined {
  for (const id of readings.flatMap(mostSay)) {
    const element = network.elements.find(one => one.id === id);
    if (!element) continue;
    const halves = cut(box, toleranceOf(element), smallestCut);
    if (!halves) continue;
    return nominalPlace(rangeOf(element)) <= 0.5 ? halves : [halves[1], halves[0]];
  }
  return undefined;
}

/** The names behind the ends of a reading, the most important ones of both first. */
function mostSay({ lowAt, highAt }: NumberReading): readonly string[] {
  return lowAt.flatMap((one, i) => [one.id, ...(highAt[i] ? [highAt[i].id] : [])]);
}
