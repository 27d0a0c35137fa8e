import type { Lowered } from './lower/network.ts';

/** What a fault does to a machine. */
export interface Effect {
  /** Equal effects have equal keys. */
  readonly key: string;
  change(lowered: Lowered): Lowered;
  /** What a relay, module or output does whatever its cause asks for: 0 off, 1 on. */
  readonly fixed: ReadonlyMap<string, number>;
}
