import type { Place } from '../../base/place.ts';
import type { WireSize } from '../../base/quantity/wire-size.ts';
import { partIn } from '../../model/parts.ts';
import { frame, type Wiring } from '../lower/wiring.ts';
import type { Tie } from './change.ts';
import { linesAt } from './ends.ts';
import { badJointOf } from './extents.ts';
import type { Derived } from './fault.ts';
import { weight } from './weights.ts';

/** What makes contact: cavities, terminals in plugs and on posts, grounds, splices. */
export function contactFaults(wiring: Wiring): Derived[] {
  return [...cavityFaults(wiring), ...terminalFaults(wiring), ...groundFaults(wiring), ...spliceFaults(wiring)];
}

interface Joint {
  readonly name: string;
  /** ` at W41`, where one joint is several contacts. */
  readonly at?: string;
  readonly owner: string;
  readonly mendedBy: readonly string[];
  readonly place: Place;
  readonly where?: string;
  /** Of the conductors that meet in it. */
  readonly sizes: readonly (WireSize | undefined)[];
  readonly tie: Tie;
  readonly sharedBy?: number;
}

function jointFaults(
  joint: Joint,
  kinds: readonly ('open' | 'high resistance')[] = ['open', 'high resistance'],
): Derived[] {
  const { name, at = '', owner, mendedBy, place, where, sizes, tie, sharedBy = 1 } = joint;
  const common = { owner, mendedBy, place, where };
  const open: Derived = {
    ...common,
    ...weight('connector', 'open', sharedBy),
    id: `${name} open${at}`,
    kind: 'open',
    title: `${name} makes no contact${at}`,
    changes: () => [{ do: 'cut', tie }],
  };
  const bad: Derived = {
    ...common,
    ...weight('connector', 'poor contact', sharedBy),
    id: `${name} high resistance${at}`,
    kind: 'high resistance',
    title: `${name} makes a bad contact${at}`,
    extent: badJointOf(sizes),
    changes: extent => [{ do: 'resist', tie, ohms: extent!.value }],
  };
  return [open, bad].filter(fault => kinds.includes(fault.kind as 'open'));
}

function cavityFaults({ system, cavities }: Wiring): Derived[] {
  return [...cavities].flatMap(([name, passages]) =>
    passages.flatMap(({ connector, wire, sides }) =>
      jointFaults({
        name,
        at: passages.length > 1 ? ` at ${wire.id}` : '',
        owner: connector,
        mendedBy: [connector, name],
        place: system.connectors.get(connector)!.place,
        sizes: [wire.size],
        tie: { between: [sides[0].node, sides[1].node] },
        sharedBy: passages.length,
      }),
    ),
  );
}

/**
 * The contact between a part and the wires at it. It goes with the wires when these are mended, and stays when the part is replaced.
 * The open pin of a module is a fault of the module and told there.
 */
function terminalFaults(wiring: Wiring): Derived[] {
  const { system, variant, terminals } = wiring;
  return [...terminals].flatMap(([name, { part, own, harness }]) => {
    const here = linesAt(wiring, name).map(line => line.wire);
    if (here.length === 0) return [];
    const data = partIn(system.parts.get(part)!, variant);
    return jointFaults(
      {
        name,
        owner: name,
        mendedBy: [name, ...new Set(here.map(wire => wire.id))],
        place: system.parts.get(part)!.place,
        where: `between ${part} and its wires`,
        sizes: here.map(wire => wire.size),
        tie: { between: [own, harness] },
        sharedBy: data.terminals.length,
      },
      data.kind === 'module' ? ['high resistance'] : undefined,
    );
  });
}

function groundFaults(wiring: Wiring): Derived[] {
  const { system, grounds } = wiring;
  return [...grounds].flatMap(([name, node]) =>
    jointFaults({
      name,
      owner: name,
      mendedBy: [name],
      place: system.grounds.get(name)!.place,
      sizes: linesAt(wiring, name).map(({ wire }) => wire.size),
      tie: { between: [node, frame] },
    }),
  );
}

/** A bad joint of one wire in a splice reads like a fault at the end of that wire. */
function spliceFaults(wiring: Wiring): Derived[] {
  const { system, splices } = wiring;
  return [...splices.keys()].flatMap(name => {
    // Of all variants, so that a fault is as likely in each.
    const sharedBy = system.wires.filter(({ from, to }) => from?.text === name || to?.text === name).length;
    return linesAt(wiring, name).flatMap(({ wire, nodes }) => {
      const [a, b] = wire.from?.text === name ? nodes.slice(0, 2) : nodes.slice(-2);
      return jointFaults({
        name,
        at: ` at ${wire.id}`,
        owner: name,
        mendedBy: [name, wire.id],
        place: system.splices.get(name)!.place,
        sizes: [wire.size],
        tie: { between: [a!, b!], wire: wire.id },
        sharedBy,
      });
    });
  });
}
