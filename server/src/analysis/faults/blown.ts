import { exact } from '../../base/ranged.ts';
import type { Network, NodeId } from '../../circuit/network.ts';
import { quickLook } from '../../circuit/quick-look.ts';
import { solve } from '../../circuit/solve.ts';
import type { PartKind } from '../../model/parts.ts';
import type { Effect } from '../effect.ts';
import type { Turn } from '../electrical.ts';
import type { Wiring } from '../lower/wiring.ts';
import type { Settling } from '../settle.ts';
import { effectOf, together } from './effect-of.ts';

/** What relays, rules and fuses have come to with a fault. */
export interface AfterBlowing {
  readonly settling: Settling;
  /** Fuses and breakers that the fault has opened, in the order in which they went. */
  readonly blown: readonly string[];
}

/**
 * A fuse carries 1.35 times its rating for ten minutes at most (ISO 8820-3, time-current limits of blade fuses, from memory); breakers
 * are taken alike (common practice, no source).
 */
const blowsAt = 1.35;

/**
 * Settles a machine with a fault and opens the fuses that its nominal current would open: one after the other, the one with the
 * greatest share of its rating first, for behind it the current of the others falls. The machine settles anew after each.
 */
export function settleBlowing(wiring: Wiring, effect: Effect, settle: (effect: Effect) => Settling): AfterBlowing {
  const fuses = fusesOf(wiring);
  const blown: string[] = [];
  for (;;) {
    const opened = fuses.filter(fuse => blown.includes(fuse.name));
    const now = blown.length === 0 ? effect : together([effect, ...opened.map(openFuse)]);
    const settling = settle(now);
    const network = nominalOf('restless' in settling ? settle(heldOn(wiring, now, settling.restless)) : settling);
    const next = network && mostOverloaded(network, fuses);
    if (!next || blown.includes(next.name)) return { settling, blown };
    blown.push(next.name);
  }
}

function nominalOf(settling: Settling): Network | undefined {
  return 'settled' in settling ? settling.settled[0]?.leaky : undefined;
}

/** What goes on and off for ever draws its current while it is on. */
function heldOn({ parts, terminals }: Wiring, effect: Effect, restless: readonly Turn[]): Effect {
  const switching = new Set(parts.flatMap(({ part, data }) => (switchingKinds.has(data.kind) ? [part.id] : [])));
  const names = restless.map(turn => turn.name).filter(name => switching.has(name) || terminals.has(name));
  return { ...effect, fixed: new Map([...names.map(name => [name, 1] as const), ...effect.fixed]) };
}

const switchingKinds: ReadonlySet<PartKind> = new Set(['relay', 'module', 'transistor']);

interface Fuse {
  readonly name: string;
  readonly ratingA: number;
  readonly own: readonly [NodeId, NodeId];
  readonly harness: NodeId;
}

function fusesOf({ parts, terminals }: Wiring): readonly Fuse[] {
  return parts.flatMap(({ part, data }) => {
    if ((data.kind !== 'fuse' && data.kind !== 'breaker') || !data.ratingA) return [];
    const [a, b] = data.terminals.map(t => terminals.get(`${part.id}.${t.text}`));
    return a && b ? [{ name: part.id, ratingA: data.ratingA, own: [a.own, b.own] as const, harness: a.harness }] : [];
  });
}

function openFuse({ name, own, harness }: Fuse): Effect {
  return effectOf({ id: `${name} blown`, changes: [{ do: 'let go', own: own[0], harness }] });
}

function mostOverloaded(network: Network, fuses: readonly Fuse[]): Fuse | undefined {
  const currentOf = nominalCurrents(withAmmeters(network, fuses), network);
  if (!currentOf) return undefined;
  const share = ({ name, ratingA }: Fuse) => Math.abs(currentOf(name)) / ratingA;
  const most = fuses.reduce<Fuse | undefined>((top, f) => (top && share(top) >= share(f) ? top : f), undefined);
  return most && share(most) > blowsAt ? most : undefined;
}

/** What was looked at for the states of the machine tells the currents of resistances, too. */
function nominalCurrents(measured: Network, settled: Network): ((id: string) => number) | undefined {
  if (measured !== settled) {
    const currents = solve(measured).value?.currents;
    return currents && (id => currents.get(id) ?? 0);
  }
  const look = quickLook(settled);
  if (!look) return undefined;
  return id => {
    const element = settled.elements.find(one => one.id === id);
    return element?.kind === 'resistance' ? look.through(element) : 0;
  };
}

/** A fuse without a resistance is a join, whose current a source of 0 V in its place tells. */
function withAmmeters(network: Network, fuses: readonly Fuse[]): Network {
  const ideal = fuses.filter(({ own: [a, b] }) => network.joins.some(([c, d]) => c === a && d === b));
  if (ideal.length === 0) return network;
  const isIdeal = ([c, d]: readonly [NodeId, NodeId]) => ideal.some(({ own: [a, b] }) => c === a && d === b);
  return {
    ...network,
    joins: network.joins.filter(join => !isIdeal(join)),
    elements: [
      ...network.elements,
      ...ideal.map(({ name, own: [plus, minus] }) => ({
        kind: 'voltage' as const,
        id: name,
        plus,
        minus,
        volts: exact(0),
      })),
    ],
  };
}
