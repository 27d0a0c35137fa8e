import type { Effect } from '../../../server/src/analysis/effect.ts';
import { leadNode } from '../../../server/src/analysis/lower/leads.ts';
import { type Lowered, lower } from '../../../server/src/analysis/lower/network.ts';
import { frame, type Wiring } from '../../../server/src/analysis/lower/wiring.ts';
import { situation } from '../../../server/src/analysis/situation.ts';
import type { Element } from '../../../server/src/circuit/network.ts';
import type { Lead } from '../../../server/src/model/step.ts';
import { type Branch, solvePart } from '../../support/modified-nodal.ts';

/** Where between its ends each tolerance of one machine is: -1 low, 0 nominal, 1 high. */
export type Places = (tolerance: string) => number;

/** What is set and what is apart. */
export interface Now {
  readonly states: ReadonlyMap<string, string>;
  readonly apart: ReadonlySet<string>;
}

/** Volts, ohms or amperes; what stands on the meter is for others to say. */
export type Shown = number | 'floating' | 'over limit' | 'live' | 'no contact' | 'not settled';

/**
 * The electricity of one machine of which every value is known: resistances and sources only, so that each question is one system of
 * linear equations, put together and solved by elimination anew. What a module is powered by is tried until it stays.
 */
export class Electricity {
  readonly wiring: Wiring;
  readonly #places: Places;
  readonly #networks = new Map<string, Pinned | undefined>();
  /** A lamp or an ammeter takes so much that a fuse may go by it: whether it then stays open is not said anywhere. */
  isOverloadedByMeter = false;
  /** The tolerances that were asked for. */
  readonly met = new Set<string>();

  constructor(wiring: Wiring, places: Places) {
    this.wiring = wiring;
    this.#places = places;
  }

  volts(red: Lead, black: Lead, meterOhms: number, now: Now, effects: readonly Effect[]): Shown {
    return this.#between(red, black, now, effects, (a, b, network) => {
      if (!hangTogether(network, a, b)) return 'floating';
      return solve(network, a, [{ a, b, ohms: meterOhms, volts: 0 }]).volts(a, b);
    });
  }

  /** What is left across a lamp of so many ohms. */
  lampVolts(red: Lead, black: Lead, ohms: number, now: Now, effects: readonly Effect[]): Shown {
    const [a, b] = [this.#node(red, now), this.#node(black, now)];
    if (a === undefined || b === undefined) return 'no contact';
    const lamp: Element = { kind: 'resistance', id: 'lamp', a, b, ohms: exactly(ohms) };
    const network = this.#network(now, effects, [lamp]);
    if (network) this.#heed(network);
    return network ? solve(network, a).volts(a, b) : 'not settled';
  }

  ohms(red: Lead, black: Lead, overLimitOhms: number, now: Now, effects: readonly Effect[]): Shown {
    return this.#between(red, black, now, effects, (a, b, network) => {
      if (isLive(network, a, b)) return 'live';
      const dead = branchesOf(network).map(branch => ({ ...branch, volts: 0 }));
      const joins = [
        ...network.network.joins,
        ...dead.filter(one => one.ohms === 0).map(one => [one.a, one.b] as const),
      ];
      const branches = dead.filter(one => one.ohms > 0);
      const { nodeCount } = network.network;
      const across = solvePart({ nodeCount, joins, branches, injected: [{ from: b, to: a, amps: 1 }] }, a).volts(a, b);
      return Number.isFinite(across) && across <= overLimitOhms ? across : 'over limit';
    });
  }

  ampsBetween(red: Lead, black: Lead, burdenOhms: number, now: Now, effects: readonly Effect[]): Shown {
    const [a, b] = [this.#node(red, now), this.#node(black, now)];
    if (a === undefined || b === undefined) return 'no contact';
    const meter: Element = { kind: 'resistance', id: 'meter', a, b, ohms: exactly(burdenOhms) };
    const network = this.#network(now, effects, [meter]);
    if (network) this.#heed(network);
    return network ? solve(network, a).volts(a, b) / burdenOhms : 'not settled';
  }

  /** The current of a wire with a resistance or of a part, in the direction in which the file names its ends. */
  ampsIn(name: string, now: Now, effects: readonly Effect[]): Shown {
    const network = this.#network(now, effects);
    if (!network) return 'not settled';
    const branches = branchesOf(network);
    const at = branches.findIndex(({ id }) => id === name || id.startsWith(`${name} `));
    // A wire that is no longer there carries nothing.
    return at < 0 ? 0 : solve(network, branches[at]!.a).amps(at);
  }

  /** What a module sees at a pin. */
  pinVolts(module: string, pin: string, now: Now, effects: readonly Effect[]): Shown {
    const network = this.#network(now, effects);
    return network ? this.#pin(network, module, pin) : 'not settled';
  }

  isPowered(module: string, now: Now, effects: readonly Effect[]): boolean {
    return this.#network(now, effects)?.on.has(module) ?? false;
  }

  /** The volts across a part, against the highest voltage that there is. */
  shareOfSupply(part: string, now: Now, effects: readonly Effect[]): number {
    const network = this.#network(now, effects);
    const load = network && branchesOf(network).find(({ id }) => id === part);
    if (!network || !load) return 0;
    const full = Math.max(0, ...branchesOf(network).map(({ volts }) => Math.abs(volts)));
    const across = hangTogether(network, load.a, load.b) ? solve(network, load.a).volts(load.a, load.b) : 0;
    return full === 0 ? 0 : Math.abs(across) / full;
  }

  /** The fuses that carry more than so many times their rating, one after the other. */
  overloaded(times: number, now: Now, effects: readonly Effect[], opened: (fuse: string) => Effect): readonly string[] {
    const blown: string[] = [];
    for (;;) {
      const network = this.#network(now, [...effects, ...blown.map(opened)]);
      if (!network) return blown;
      const shares = this.#shares(network);
      const most = shares.sort((x, y) => y.share - x.share)[0];
      if (!most || most.share <= times || blown.includes(most.id)) return blown;
      blown.push(most.id);
    }
  }

  /** What each fuse carries against its rating. */
  #shares({ network, ...rest }: Pinned): { id: string; share: number }[] {
    const branches = branchesOf({ network, ...rest });
    return this.#fuses().map(({ id, ratingA, ends: [a, b] }) => {
      // In place of the fuse a source of 0 V, whose current is an unknown of its own.
      const inside = branches.find(one => one.id === id);
      const joins = network.joins.filter(([c, d]) => !(c === a && d === b));
      if (!inside && joins.length === network.joins.length) return { id, share: 0 };
      const own = { a, b, ohms: inside?.ohms ?? 0, volts: 0 };
      const others = branches.filter(one => one.id !== id);
      const amps = solvePart({ nodeCount: network.nodeCount, joins, branches: [own, ...others] }, a).amps(0);
      return { id, share: Number.isFinite(amps) ? Math.abs(amps) / ratingA : 0 };
    });
  }

  #heed(network: Pinned): void {
    if (this.#shares(network).some(({ share }) => share > 1)) this.isOverloadedByMeter = true;
  }

  #between(
    red: Lead,
    black: Lead,
    now: Now,
    effects: readonly Effect[],
    shown: (a: number, b: number, network: Pinned) => Shown,
  ): Shown {
    const [a, b] = [this.#node(red, now), this.#node(black, now)];
    if (a === undefined || b === undefined) return 'no contact';
    const network = this.#network(now, effects);
    return network ? shown(a, b, network) : 'not settled';
  }

  #node(lead: Lead, now: Now): number | undefined {
    const node = leadNode(this.wiring, lead, situation(now.states, now.apart));
    return typeof node === 'number' ? node : undefined;
  }

  #network(now: Now, effects: readonly Effect[], extra: readonly Element[] = []): Pinned | undefined {
    const { key } = situation(now.states, now.apart);
    const asked = [key, ...effects.map(effect => effect.key), JSON.stringify(extra)].join('#');
    if (!this.#networks.has(asked)) this.#networks.set(asked, this.#settled(now, effects, extra));
    return this.#networks.get(asked);
  }

  /** The network with what has power; undefined where it goes on and off for ever. */
  #settled(now: Now, effects: readonly Effect[], extra: readonly Element[]): Pinned | undefined {
    const fixed = new Map(effects.flatMap(effect => [...effect.fixed]));
    const modules = this.wiring.parts.flatMap(({ part, data }) => (data.kind === 'module' ? [{ part, data }] : []));
    const always = modules.filter(({ data }) => !data.powered).map(({ part }) => part.id);
    let on = new Set(always);
    for (const [name, state] of fixed) if (state > 0) on.add(name);
    for (let round = 0; round < 10; round++) {
      const network = this.#pinned(now, effects, on, extra);
      const next = new Set(on);
      for (const { part, data } of modules) {
        if (!data.powered || fixed.has(part.id)) continue;
        const volts = this.#pin(network, part.id, data.powered.pin.text);
        if (typeof volts === 'number' && volts >= data.powered.aboveV) next.add(part.id);
        else next.delete(part.id);
      }
      if (next.size === on.size && [...next].every(id => on.has(id))) return network;
      on = next;
    }
    return undefined;
  }

  #pinned(now: Now, effects: readonly Effect[], on: ReadonlySet<string>, extra: readonly Element[]): Pinned {
    let lowered = lower(this.wiring, situation(now.states, now.apart), name => on.has(name));
    for (const effect of effects) lowered = effect.change(lowered);
    const { network } = lowered;
    if ((network.bends ?? []).length > 0) throw new Error('the second implementation knows straight parts only');
    const elements = network.elements.map((element): Element => {
      if (element.kind === 'resistance') return { ...element, ohms: exactly(this.#value(element.id, element.ohms)) };
      if (element.kind === 'voltage') return { ...element, volts: exactly(this.#value(element.id, element.volts)) };
      throw new Error('the second implementation knows no current sources');
    });
    return { ...lowered, network: { ...network, elements: [...elements, ...extra] }, on };
  }

  #value(id: string, { low, nominal, high }: { low: number; nominal: number; high: number }): number {
    if (low === high) return nominal;
    this.met.add(id);
    const place = this.#places(id);
    return place < 0 ? nominal + (nominal - low) * place : nominal + (high - nominal) * place;
  }

  #pin(network: Pinned, module: string, pin: string): number | 'floating' {
    const data = this.wiring.parts.find(({ part }) => part.id === module)!.data;
    const groundPin = data.kind === 'module' ? data.ground?.text : undefined;
    const a = this.wiring.terminals.get(`${module}.${pin}`)!.own;
    const b = this.wiring.terminals.get(`${module}.${groundPin}`)?.own ?? frame;
    return hangTogether(network, a, b) ? solve(network, a).volts(a, b) : 'floating';
  }

  #fuses() {
    return this.wiring.parts.flatMap(({ part, data }) => {
      if (data.kind !== 'fuse' && data.kind !== 'breaker') return [];
      const [a, b] = data.terminals.map(({ text }) => this.wiring.terminals.get(`${part.id}.${text}`)!.own);
      return data.ratingA ? [{ id: part.id, ratingA: data.ratingA, ends: [a!, b!] as const }] : [];
    });
  }
}

/** A network without a tolerance, and what has power in it. */
type Pinned = Lowered & { readonly on: ReadonlySet<string> };

function exactly(value: number) {
  return { low: value, nominal: value, high: value };
}

function branchesOf({ network }: Pinned): (Branch & { readonly id: string })[] {
  return network.elements.flatMap(element => {
    if (element.kind === 'resistance')
      return [{ id: element.id, a: element.a, b: element.b, ohms: element.ohms.nominal, volts: 0 }];
    return element.kind === 'voltage'
      ? [{ id: element.id, a: element.plus, b: element.minus, ohms: 0, volts: element.volts.nominal }]
      : [];
  });
}

function solve(pinned: Pinned, node: number, more: readonly Branch[] = []) {
  const { nodeCount, joins } = pinned.network;
  return solvePart({ nodeCount, joins, branches: [...branchesOf(pinned), ...more] }, node);
}

function hangTogether(pinned: Pinned, a: number, b: number): boolean {
  const reached = new Set([a]);
  const ties = [...pinned.network.joins, ...branchesOf(pinned).map(branch => [branch.a, branch.b] as const)];
  for (let before = 0; before < reached.size; ) {
    before = reached.size;
    for (const [c, d] of ties) {
      if (reached.has(c)) reached.add(d);
      else if (reached.has(d)) reached.add(c);
    }
  }
  return reached.has(b);
}

/** Whether some way from one lead to the other, by whatever conducts, passes a supply. */
function isLive(pinned: Pinned, a: number, b: number): boolean {
  const ties = [...pinned.network.joins.map(([c, d]) => ({ a: c, b: d, volts: 0 })), ...branchesOf(pinned)];
  const passesSupply = (at: number, passed: ReadonlySet<number>, driven: boolean): boolean => {
    if (at === b) return driven;
    const here = new Set([...passed, at]);
    return ties.some(tie => {
      if (tie.a !== at && tie.b !== at) return false;
      const next = tie.a === at ? tie.b : tie.a;
      return !here.has(next) && passesSupply(next, here, driven || tie.volts !== 0);
    });
  };
  return a !== b && passesSupply(a, new Set(), false);
}
