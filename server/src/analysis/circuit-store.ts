import type { System } from '../model/system.ts';
import { makeCircuit } from './circuit.ts';
import type { Circuit } from './electrical.ts';
import { FlowMaker } from './make-flow.ts';
import { signature } from './signature.ts';

/** Circuits of one version of a system. */
export interface Circuits {
  circuit(variant: string): Circuit;
}

/** Keeps circuits with all their readings for as long as the system stays electrically the same. */
export class CircuitStore {
  readonly #known = new Map<string, { signature: string; circuits: Map<string, Circuit> }>();
  readonly #flows = new WeakMap<Circuit, FlowMaker>();

  for(system: System): Circuits {
    let mine: Map<string, Circuit> | undefined;
    const circuits = () => {
      if (mine) return mine;
      const now = signature(system);
      const before = this.#known.get(system.uri);
      mine = before?.signature === now ? before.circuits : new Map<string, Circuit>();
      this.#known.set(system.uri, { signature: now, circuits: mine });
      return mine;
    };
    return {
      circuit: variant => {
        const known = circuits().get(variant);
        if (known) return known;
        const fresh = makeCircuit(system, variant);
        circuits().set(variant, fresh);
        return fresh;
      },
    };
  }

  flowMaker(circuit: Circuit): FlowMaker {
    const known = this.#flows.get(circuit);
    if (known) return known;
    const fresh = new FlowMaker(circuit);
    this.#flows.set(circuit, fresh);
    return fresh;
  }

  forget(uri: string): void {
    this.#known.delete(uri);
  }
}
