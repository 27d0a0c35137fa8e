import type { Limit } from '../base/quantity/limit.ts';
import type { WireSize } from '../base/quantity/wire-size.ts';
import type { Ranged } from '../base/ranged.ts';
import type { SensorCurve, SensorSignal } from '../base/sensor-curve.ts';
import type { Declared, Limited, Place, Ref, Test, Value } from './common.ts';

export type PartKind = PartData['kind'];

/** A part; what differs by variant is in `byVariant`. */
export interface Part extends Declared, Limited {
  readonly data: PartData;
  readonly byVariant: ReadonlyMap<string, PartData>;
}

interface Common {
  /** Names of the terminals in the order of the kind (battery: + and -; relay: 85 86 30 87 87a; others: 1 and 2). */
  readonly terminals: readonly Ref[];
  /** Terminals that stand open, so that no plug need be probed from behind. */
  readonly studs: readonly Ref[];
  readonly hazards: readonly Ref[];
  readonly accessMin?: number;
}

/** What a part is, in one variant. Values that were not readable are absent; the part then counts as not computed. */
export type PartData = Common &
  (
    | { kind: 'battery' | 'supply'; volts?: Value; internalOhms?: Value; states?: BatteryStates }
    | { kind: 'fuse' | 'breaker'; ratingA?: number; ohms?: Ranged }
    | { kind: 'fusible link'; ohms?: Ranged; size?: WireSize; lengthM?: number }
    | { kind: 'resistor' | 'heater' | 'coil' | 'pickup' | 'inductor'; ohms?: Value }
    | Motor
    | Lamp
    | Junction
    | TransistorData
    | Table
    | { kind: 'capacitor' }
    | SensorData
    | { kind: 'switch'; positions: readonly Ref[]; contacts: readonly Contact[]; contactOhms?: Ranged }
    | { kind: 'coded switches'; idleOhms?: Ranged; buttons: ReadonlyMap<string, CodedButton> }
    | Relay
    | Module
    | { kind: 'item'; fails: ReadonlyMap<string, Declared> }
    | NotComputed
  );

/** A lead-acid battery of which more is said than its voltage. */
export interface BatteryStates {
  /** 0 to 1. */
  readonly charge?: Ranged;
  readonly cells?: number;
  readonly crankingWhen?: Test;
  readonly chargingWhen?: Test;
  readonly place: Place;
}

/** A kind that the language does not have. */
export interface NotComputed {
  readonly kind: 'unknown';
}

interface Follower {
  /** The condition with a number that its value follows. */
  readonly follows?: Ref;
}

interface Signalling {
  readonly signal?: SensorSignal;
}

type SensorData =
  | ({ readonly kind: 'thermistor' | 'rtd' | 'thermocouple'; readonly curve?: SensorCurve } & Follower)
  /** How far its wiper may be off, as a part of the track. */
  | ({ readonly kind: 'potentiometer'; readonly ohms?: Value; readonly accuracy: number } & Follower)
  | ({ readonly kind: 'ratiometric sensor'; readonly ohms?: Ranged } & Follower & Signalling)
  | ({ readonly kind: 'current loop'; readonly leastV?: number } & Follower & Signalling)
  | { readonly kind: 'hall sensor'; readonly onWhen?: Test; readonly onOhms?: Ranged; readonly leastV?: number };

export type Sensor = Common & SensorData;

export interface Motor {
  readonly kind: 'motor';
  /** Of its winding. */
  readonly ohms?: Value;
  /** What it takes while it turns freely; absent: it counts as standing still. */
  readonly running?: { readonly ratedV: number; readonly amps: Ranged };
  readonly stalledWhen?: Test;
}

export interface Lamp {
  readonly kind: 'lamp';
  readonly ratedV?: number;
  readonly powerW?: Ranged;
  readonly coldOhms?: Ranged;
}

export interface Junction {
  readonly kind: 'diode' | 'led' | 'zener';
  readonly forwardV?: Ranged;
  readonly zenerV?: Ranged;
  /** What comes on top of its voltage for each ampere; of a zener diode in breakdown. */
  readonly slopeOhms?: Ranged;
}

interface TransistorData {
  readonly kind: 'transistor';
  readonly saturationV?: number;
  /** What comes on top of the saturation voltage for each ampere. */
  readonly saturationOhms?: Ranged;
  readonly isPnp: boolean;
}

/** Terminals in the order base, collector, emitter. */
export type Transistor = Common & TransistorData;

/** Points by rising voltage; empty where they could not be used. */
export interface Table {
  readonly kind: 'two-terminal';
  readonly points: readonly TablePoint[];
}

export interface TablePoint {
  readonly volts: number;
  readonly amps: Ranged;
}

export interface Contact {
  readonly a: Ref;
  readonly b: Ref;
  /** Closed while this test holds, or while the part is in one of these positions. */
  readonly closed: { readonly test: Test } | { readonly positions: readonly Ref[] };
}

export interface CodedButton extends Declared {
  readonly is: Ranged | 'short' | 'open';
}

export interface Relay {
  readonly kind: 'relay';
  readonly coilOhms?: Ranged;
  readonly pullInV?: number;
  readonly dropOutV?: number;
  readonly contactOhms?: Ranged;
  readonly suppressionOhms?: Ranged;
  /** Terminals of the anode and the cathode of a diode across the coil. */
  readonly suppressionDiode?: readonly [anode: Ref, cathode: Ref];
}

export interface Module {
  readonly kind: 'module';
  readonly ground?: Ref;
  readonly powered?: { readonly pin: Ref; readonly aboveV: number };
  readonly pins: ReadonlyMap<string, Pin>;
  readonly scanData: ReadonlyMap<string, ScanDatum>;
  readonly rules: readonly OperatingRule[];
}

export interface Pin extends Declared, Limited {
  readonly name?: string;
  readonly draws?: Ranged;
  readonly pullUp?: { readonly toV: Ranged; readonly throughOhms: Ranged };
  readonly pullDownOhms?: Ranged;
  readonly output?: 'low side' | 'high side' | 'supply';
  /** High side: the pin that it switches to this one. */
  readonly feed?: Ref;
  readonly onOhms?: Ranged;
  readonly offLeakageA?: Ranged;
  readonly supplyV?: Ranged;
}

export interface ScanDatum extends Declared, Limited {
  /** The pin it is decoded from. */
  readonly from?: Ref;
  readonly states: readonly { readonly name: Ref; readonly limit?: Limit }[];
  readonly shows?: 'voltage' | 'number';
  readonly follows?: Ref;
}

export interface OperatingRule extends Limited {
  readonly when: Test;
  readonly until?: Test;
  readonly outputs: readonly { readonly pin: Ref; readonly on: boolean }[];
  readonly ref: Ref;
}

/** What the part is in this variant. */
export function partIn(part: Part, variant: string): PartData {
  return part.byVariant.get(variant) ?? part.data;
}

/** States that a part can be set to by its own name; the first is the one at rest. */
export function ownStates(data: PartData): readonly string[] {
  if (data.kind === 'switch') return data.positions.map(p => p.text);
  if (data.kind === 'coded switches') return ['idle', ...data.buttons.keys()];
  return [];
}
