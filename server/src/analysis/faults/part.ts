import type { NodeId } from '../../circuit/network.ts';
import type { Part, PartData } from '../../model/parts.ts';
import type { Wiring } from '../lower/wiring.ts';
import type { Change } from './change.ts';
import { linesAt } from './ends.ts';
import { badJointOf } from './extents.ts';
import type { Derived, Extent } from './fault.ts';
import type { Weight } from './weights.ts';

/** A part in one variant, with its nodes. */
export class WiredPart<D extends PartData = PartData> {
  readonly id: string;
  readonly data: D;
  readonly #part: Part;
  readonly #wiring: Wiring;

  constructor(wiring: Wiring, part: Part, data: D) {
    this.id = part.id;
    this.data = data;
    this.#part = part;
    this.#wiring = wiring;
  }

  get variant(): string {
    return this.#wiring.variant;
  }

  /** The node inside at a terminal, by its name or its number in the order of the kind. */
  own(terminal: string | number): NodeId | undefined {
    return this.#terminal(terminal)?.own;
  }

  get nodes(): readonly NodeId[] {
    return this.data.terminals.flatMap(t => this.own(t.text) ?? []);
  }

  /** A bad joint with the wires at these terminals. */
  badJoint(terminals: readonly string[]): Extent {
    const here = terminals.flatMap(t => linesAt(this.#wiring, `${this.id}.${t}`));
    return badJointOf(here.map(({ wire }) => wire.size));
  }

  /** What lies inside lets go of a terminal. */
  letGo(terminal: string | number): readonly Change[] {
    const at = this.#terminal(terminal);
    return at ? [{ do: 'let go', own: at.own, harness: at.harness }] : [];
  }

  /** The plug makes no contact at a terminal. */
  cut(terminal: string | number): readonly Change[] {
    const at = this.#terminal(terminal);
    return at ? [{ do: 'cut', tie: { between: [at.own, at.harness] } }] : [];
  }

  bridge(a: string | number, b: string | number, ohms: number): readonly Change[] {
    const [from, to] = [this.own(a), this.own(b)];
    return from === undefined || to === undefined ? [] : [{ do: 'bridge', between: [from, to], ohms }];
  }

  scale(extent: Extent | undefined, id?: string): readonly Change[] {
    return [{ do: 'scale', nodes: this.nodes, factor: Math.max(0, 1 + (extent?.value ?? 0)), id }];
  }

  fault(kind: string, title: string, weight: Weight, changes: Derived['changes'], extent?: Extent): Derived {
    const { id, place } = this.#part;
    return {
      id: `${id} ${kind}`,
      owner: id,
      mendedBy: [id],
      kind,
      title: `${id} ${title}`,
      place,
      ...weight,
      extent,
      changes,
    };
  }

  #terminal(terminal: string | number) {
    const name = typeof terminal === 'number' ? this.data.terminals[terminal]?.text : terminal;
    return this.#wiring.terminals.get(`${this.id}.${name}`);
  }
}

/** A part of one kind. */
export type PartOf<K extends PartData['kind']> = WiredPart<Extract<PartData, { kind: K }>>;
