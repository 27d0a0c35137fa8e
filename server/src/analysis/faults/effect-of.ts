import { exact, type Ranged } from '../../base/ranged.ts';
import { type Bent, type Element, endsOf, type NodeId, rangeOf, withRange } from '../../circuit/network.ts';
import type { Effect } from '../effect.ts';
import type { Lowered, Unknown } from '../lower/network.ts';
import type { Sense } from '../lower/surroundings.ts';
import type { Change, Tie } from './change.ts';
import type { Fault } from './fault.ts';

/** What a fault does to a machine; a fault that is not electrical does nothing. */
export function effectOf({ id, changes }: Pick<Fault, 'id' | 'changes'>): Effect {
  const fixed = changes.flatMap(c => (c.do === 'fix' ? [[c.name, c.on ? 1 : 0] as const] : []));
  return {
    key: changes.length === 0 ? '' : JSON.stringify(changes),
    change: lowered => {
      const draft = new Draft(lowered);
      changes.forEach((change, i) => {
        draft.make(change, i === 0 ? `fault ${id}` : `fault ${id} (${i + 1})`);
      });
      return draft.done();
    },
    fixed: new Map(fixed),
  };
}

/** The effects of several faults at once. */
export function together(effects: readonly Effect[]): Effect {
  return {
    key: effects.map(e => e.key).join(' & '),
    change: lowered => effects.reduce((before, e) => e.change(before), lowered),
    fixed: new Map(effects.flatMap(e => [...e.fixed])),
  };
}

/** A network while it is changed. */
class Draft {
  readonly #before: Lowered;
  #elements: readonly Element[];
  #joins: readonly (readonly [NodeId, NodeId])[];
  #bends: readonly Bent[];
  #senses: readonly Sense[];
  #unknown: ReadonlyMap<string, Unknown>;
  #nodeCount: number;

  constructor(lowered: Lowered) {
    const { nodeCount, elements, joins, bends = [] } = lowered.network;
    this.#before = lowered;
    this.#elements = elements;
    this.#joins = joins;
    this.#bends = bends;
    this.#senses = lowered.senses;
    this.#unknown = lowered.unknown;
    this.#nodeCount = nodeCount;
  }

  make(change: Change, id: string): void {
    switch (change.do) {
      case 'cut':
        this.#cut(change.tie);
        return;
      case 'resist':
        this.#resist(change.tie, id, change.ohms);
        return;
      case 'bridge':
        this.#add(id, change.between, change.ohms);
        return;
      case 'let go':
        this.#letGo(change.own, change.harness);
        return;
      case 'remove':
        this.#elements = this.#elements.filter(e => !change.ids.includes(e.id));
        this.#bends = this.#bends.filter(b => !change.ids.includes(b.id));
        return;
      case 'in series':
        this.#inSeries(change.id, id, change.ohms);
        return;
      case 'scale':
        this.#scale(change);
        return;
      case 'source':
        this.#elements = this.#elements.map(e => (e.kind === 'voltage' && e.id === change.id ? sourced(e, change) : e));
        return;
      case 'fix':
        return;
    }
  }

  done(): Lowered {
    const network = {
      ...this.#before.network,
      nodeCount: this.#nodeCount,
      elements: this.#elements,
      joins: this.#joins,
      bends: this.#bends,
    };
    return { ...this.#before, network, senses: this.#senses, unknown: this.#unknown };
  }

  #add(id: string, [a, b]: readonly [NodeId, NodeId], ohms: number): void {
    this.#elements = [...this.#elements, { kind: 'resistance', id, a, b, ohms: exact(ohms) }];
  }

  /** True where the tie was there: a plug that is apart has none to cut. */
  #cut(tie: Tie): boolean {
    const element = this.#elements.findIndex(e => e.kind === 'resistance' && isTie(tie, e.a, e.b) && isOf(tie, e.id));
    if (element >= 0) {
      this.#elements = this.#elements.toSpliced(element, 1);
      return true;
    }
    const join = this.#joins.findIndex(([a, b]) => isTie(tie, a, b));
    if (join >= 0) this.#joins = this.#joins.toSpliced(join, 1);
    return join >= 0;
  }

  /** Ohms in line with others are their sum, so that the tie stays one element and may have a second fault. */
  #resist(tie: Tie, id: string, ohms: number): void {
    const element = this.#elements.find(e => e.kind === 'resistance' && isTie(tie, e.a, e.b) && isOf(tie, e.id));
    if (!element) {
      if (this.#cut(tie)) this.#add(id, tie.between, ohms);
      return;
    }
    const { low, nominal, high } = rangeOf(element);
    const more = withRange(element, { low: low + ohms, nominal: nominal + ohms, high: high + ohms });
    this.#elements = this.#elements.map(e => (e === element ? more : e));
  }

  #letGo(own: NodeId, harness: NodeId): void {
    const inside = this.#nodeCount++;
    const moved = (node: NodeId) => (node === own ? inside : node);
    const isPlug = ([a, b]: readonly [NodeId, NodeId]) => (a === own && b === harness) || (a === harness && b === own);
    this.#elements = this.#elements.map(e => withEnds(e, moved));
    this.#bends = this.#bends.map(b => ({ ...b, a: moved(b.a), b: moved(b.b) }));
    this.#senses = this.#senses.map(s => ('bend' in s ? s : { ...s, red: moved(s.red), black: moved(s.black) }));
    this.#joins = this.#joins.map(join => (isPlug(join) ? join : ([moved(join[0]), moved(join[1])] as const)));
    this.#unknown = new Map([...this.#unknown].map(([name, u]) => [name, { ...u, nodes: u.nodes.map(moved) }]));
  }

  #inSeries(source: string, id: string, ohms: number): void {
    const found = this.#elements.find(e => e.kind === 'voltage' && e.id === source);
    if (found?.kind !== 'voltage') return;
    const inside = this.#nodeCount++;
    this.#elements = this.#elements.map(e => (e === found ? { ...found, plus: inside } : e));
    this.#add(id, [inside, found.plus], ohms);
  }

  /** Of a bent part every piece takes the current that so many times its ohms let through, so that its pieces still meet. */
  #scale({ nodes, factor, id }: Change & { do: 'scale' }): void {
    const isMine = (name: string, ends: readonly NodeId[]) =>
      (id === undefined || name === id) && ends.some(node => nodes.includes(node));
    this.#elements = this.#elements.map(e => (isMine(e.id, endsOf(e)) ? withRange(e, times(rangeOf(e), factor)) : e));
    this.#bends = this.#bends.map(bend => (isMine(bend.id, [bend.a, bend.b]) ? bentTimes(bend, factor) : bend));
  }
}

function isTie({ between: [from, to] }: Tie, a: NodeId, b: NodeId): boolean {
  return (a === from && b === to) || (a === to && b === from);
}

/** A wire's pieces are called `W41` or `W41 before X12/3`; one without ohms of its own has those of its fault. */
function isOf({ wire }: Tie, id: string): boolean {
  return wire === undefined || id === wire || id.startsWith(`${wire} `) || id.startsWith('fault ');
}

function withEnds(element: Element, moved: (node: NodeId) => NodeId): Element {
  switch (element.kind) {
    case 'resistance':
      return { ...element, a: moved(element.a), b: moved(element.b) };
    case 'voltage':
      return { ...element, plus: moved(element.plus), minus: moved(element.minus) };
    case 'current':
      return { ...element, from: moved(element.from), to: moved(element.to) };
  }
}

/** What an empty battery gives does not follow from the tolerance of a full one, so a stated voltage stands alone. */
function sourced(source: Element & { kind: 'voltage' }, { volts, factor = 1 }: { volts?: number; factor?: number }) {
  if (volts !== undefined) return { ...source, volts: exact(volts) };
  return { ...source, volts: times(source.volts, factor) };
}

function bentTimes(bend: Bent, factor: number): Bent {
  const least = Math.max(factor, leastFactor);
  const segments = bend.segments.map(s => (s.kind === 'line' ? { ...s, ohms: times(s.ohms, least) } : s));
  return { ...bend, segments, ...(bend.amps && { amps: bend.amps / least }) };
}

/** Pieces of bent parts have ohms above zero. */
const leastFactor = 1e-6;

function times({ low, nominal, high }: Ranged, factor: number): Ranged {
  return { low: low * factor, nominal: nominal * factor, high: high * factor };
}
