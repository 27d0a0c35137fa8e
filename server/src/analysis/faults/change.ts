import type { NodeId } from '../../circuit/network.ts';

/** Something that ties two nodes: an element, or an ideal join where it has no resistance. */
export interface Tie {
  readonly between: readonly [NodeId, NodeId];
  /** Name of the wire, where several may run between the same two nodes. */
  readonly wire?: string;
}

/** One electrical difference between a good machine and a bad one. Nodes are those of the wiring. */
export type Change =
  /** The tie conducts no longer. */
  | { readonly do: 'cut'; readonly tie: Tie }
  /** So many ohms come in series with the tie. */
  | { readonly do: 'resist'; readonly tie: Tie; readonly ohms: number }
  /** So many ohms lie between two nodes that nothing tied before. */
  | { readonly do: 'bridge'; readonly between: readonly [NodeId, NodeId]; readonly ohms: number }
  /** What lies inside a part lets go of its terminal; a lead on the terminal still touches it. */
  | { readonly do: 'let go'; readonly own: NodeId; readonly harness: NodeId }
  /** Elements by id lie no longer in the network. */
  | { readonly do: 'remove'; readonly ids: readonly string[] }
  /** So many ohms come in series with a source. */
  | { readonly do: 'in series'; readonly id: string; readonly ohms: number }
  /** Values at nodes of a part are multiplied by a factor that is not negative; `id` narrows it to one of them. */
  | { readonly do: 'scale'; readonly nodes: readonly NodeId[]; readonly factor: number; readonly id?: string }
  /** A source gives so many volts, or so much of its own. */
  | { readonly do: 'source'; readonly id: string; readonly volts?: number; readonly factor?: number }
  /** A relay, module or output does this whatever its cause asks for. */
  | { readonly do: 'fix'; readonly name: string; readonly on: boolean };
