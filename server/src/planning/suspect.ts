import type { Effect } from '../analysis/effect.ts';
import { effectOf, together } from '../analysis/faults/effect-of.ts';
import type { Fault } from '../analysis/faults/fault.ts';
import { nominalSpecimen, specimenEffect } from '../analysis/specimen.ts';

/** What may be so: one of the modelled faults, or none. */
export interface Suspect {
  /** Absent: the machine is good. */
  readonly fault?: Fault;
  /** How likely against the others. */
  readonly weight: number;
  /** What one repair removes; empty for a good machine. */
  readonly owner: string;
  /** Of the fault over all tolerances. */
  readonly effect?: Effect;
  /** Of the fault with every value nominal, which is quicker to read. */
  readonly nominal: Effect;
}

/** A machine that a technician is called to may be good; it counts like one ordinary fault. Common practice, no source. */
const goodWeight = 1;

export function suspectOf(fault: Fault | undefined): Suspect {
  const plain = specimenEffect(nominalSpecimen);
  if (!fault) return { weight: goodWeight, owner: '', nominal: plain };
  const effect = effectOf(fault);
  if (effect.key === '') return { fault, weight: fault.likelihood, owner: ownerOf(fault), nominal: plain };
  return { fault, weight: fault.likelihood, owner: ownerOf(fault), effect, nominal: together([effect, plain]) };
}

/** A bad terminal is mended with the wire that ends there. */
function ownerOf({ mendedBy, owner }: Fault): string {
  return mendedBy.find(name => !name.includes('.') && !name.includes('/')) ?? owner;
}
