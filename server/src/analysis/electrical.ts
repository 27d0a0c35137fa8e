import type { Dimension } from '../base/quantity/dimension.ts';
import type { PartValue } from '../circuit/reading.ts';
import type { Meter } from '../model/procedure.ts';
import type { MeterPlace } from '../model/step.ts';
import type { NamedDatum } from './datum-named.ts';
import type { Effect } from './effect.ts';
import type { Situation } from './situation.ts';

/** What the meter would show on a machine without a fault, over all tolerances. SI units. */
export type MeterReading =
  | NumberReading
  /** Resistance without a path, or over the meter's highest range. */
  | { readonly state: 'over limit'; readonly shows?: readonly string[] }
  /** A lead touches something that is tied to nothing. */
  | { readonly state: 'floating'; readonly lead: 'red' | 'black' | 'both' }
  /** A lead cannot be put there; `reason` stands alone as a message. */
  | { readonly state: 'no contact'; readonly lead: 'red' | 'black' | 'around'; readonly reason: LeadReason }
  /** A resistance is measured while a supply drives current between the leads. */
  | { readonly state: 'live'; readonly supplies: readonly string[] }
  /** Parts whose behaviour is not computed have a say in this reading. */
  | { readonly state: 'not computed'; readonly parts: readonly string[] }
  /** Relays or operating rules undo their own cause; `circle` goes once round, each turn caused by the ones before. */
  | { readonly state: 'not settled'; readonly names: readonly string[]; readonly circle: readonly Turn[] }
  /** The network has no solution: two supplies tied together, a supply shorted. */
  | { readonly state: 'no solution'; readonly names: readonly string[]; readonly why: string };

/** One thing that comes on or goes off, in the circle of what causes what. */
export interface Turn {
  readonly name: string;
  readonly on: boolean;
}

export interface NumberReading {
  readonly state: 'number';
  readonly dimension: Dimension;
  /** Enclosing ends: no combination goes beyond them. */
  readonly low: number;
  readonly nominal: number;
  readonly high: number;
  /** Ends that the named combinations reach. */
  readonly attained: { readonly low: number; readonly high: number };
  readonly exact: boolean;
  readonly lowAt: readonly PartValue[];
  readonly highAt: readonly PartValue[];
  /** What is seen of a test lamp, whose volts these are, or heard of a continuity test; that at nominal values first. */
  readonly shows?: readonly string[];
}

/** A resistance that is not only that of what the leads stand on. */
export interface ParallelPath {
  /** The part or wire that the leads stand on. */
  readonly meant: string;
  /** What shunts it, as a technician says it: `K3's coil`. */
  readonly through: readonly string[];
  /** What is read, and what would be without the other path; infinite for a switch that is open. Nominal values. */
  readonly ohms: number;
  readonly aloneOhms: number;
}

export type LeadReason =
  | { readonly kind: 'unknown point' }
  | { readonly kind: 'not in this variant' }
  /** The plug is apart and the lead does not say on which side it goes. */
  | { readonly kind: 'which side'; readonly sides: readonly string[] }
  | { readonly kind: 'unknown side'; readonly sides: readonly string[] }
  /** The cavity is inside a mated plug and the lead does not say back-probe. */
  | { readonly kind: 'mated'; readonly connector: string };

/** One system in one variant, as a circuit that can be measured. */
export interface Circuit {
  readonly variant: string;
  /** Every point a lead can be put on in this variant. */
  readonly points: ReadonlySet<string>;
  /** Everything at rest and together. */
  readonly rest: Situation;
  /**
   * The next situation, reached from the one before by these states and with this apart. Relays that keep what they are by their
   * hysteresis, and outputs whose rule ends only with its `until`, stay on. Equal situations are the same object.
   */
  become(
    before: Situation,
    states: ReadonlyMap<string, string>,
    apart: ReadonlySet<string>,
    effect?: Effect,
  ): Situation;
  /** The next situation where only one name gets another state. */
  set(before: Situation, name: string, state: string, effect?: Effect): Situation;
  /** With an effect: on a machine with that fault. */
  read(at: MeterPlace, meter: Meter, situation: Situation, effect?: Effect): MeterReading;
  /** What a resistance is read through beside the part or wire that the leads stand on. */
  parallel(at: MeterPlace, situation: Situation, effect?: Effect): ParallelPath | undefined;
  /** True where two situations may give different readings there. */
  differs(at: MeterPlace, meter: Meter, a: Situation, b: Situation): boolean;
  /** The state that scan data shows, where the circuit decides it; undefined where it is not computed or not decided. */
  scan(module: string, datum: string, situation: Situation, effect?: Effect): string | undefined;
  /** Every state that the tolerances leave open, the one at nominal values first; '' where it shows none of its states. */
  scanStates(module: string, datum: string, situation: Situation, effect?: Effect): readonly string[];
  /** The datum that is written `A1 keypad`; undefined where this variant has none of that name. */
  datumNamed(name: string): NamedDatum | undefined;
  /**
   * Whether a load does its work, a relay has pulled in, an output of a module is on: `on`, `off`, or both where that is not decided, the one
   * at nominal values first. Nothing for what does no work, and where the machine does not settle.
   */
  works(name: string, situation: Situation, effect?: Effect): readonly Working[];
  /** The voltage that a datum is decoded from; undefined for one that does not come from a pin. */
  scanVoltage(module: string, datum: string, situation: Situation, effect?: Effect): MeterReading | undefined;
  /** The largest nominal current in the part, or through the cavities of the connector, in amperes; 0 where it is not known. */
  currentThrough(name: string, situation: Situation, effect?: Effect): number;
  /** Volts between any two points at nominal values; undefined where the machine does not settle or the network has no solution. */
  potentials(situation: Situation, effect?: Effect): Potentials | undefined;
  /**
   * Fuses and breakers that a fault opens in this situation, in the order in which they go; readings with the effect have them open.
   * That one stays open when the situation changes is the caller's to say, by the effect of `F7 blown` beside that of the fault.
   */
  blown(situation: Situation, effect: Effect): readonly string[];
  /** What keeps the network from a solution: supplies tied together, a supply shorted, a part wired to itself. */
  troubles(situation: Situation): readonly Trouble[];
}

export type Working = 'on' | 'off';

/** Volts between points at nominal values, without a meter in the circuit; 0 where nothing ties the one to the other. */
export type Potentials = (red: string, black: string) => number;

export interface Trouble {
  readonly kind: 'supplies tied together' | 'supply shorted' | 'wired to itself' | 'no resistance';
  /** Parts and wires, as the author named them. */
  readonly names: readonly string[];
  /** What a shorted supply drives its current through, in order, and how much that would be; absent without any resistance. */
  readonly through?: readonly string[];
  readonly amps?: number;
}
