import type { Limit } from '../base/quantity/limit.ts';
import type { Declared, Limited, Place, Ref, Test } from './common.ts';
import type { Specified } from './specified.ts';

/** `key: run` in a `set`. A number where the condition has one. */
export interface Setting {
  readonly name: Ref;
  readonly state: Ref;
}

/** Where a lead goes: `X12/3 (S6 side)`, `A1.14 (back-probe)`. */
export interface Lead {
  readonly place: Place;
  /** The point without its remarks. */
  readonly point: Ref;
  readonly side?: Ref;
  readonly backProbe: boolean;
}

export type MeasureKind = 'voltage' | 'voltage drop' | 'resistance' | 'continuity' | 'current' | 'test lamp';

export interface MeterPlace {
  readonly measure: MeasureKind;
  readonly measurePlace: Place;
  readonly red?: Lead;
  readonly black?: Lead;
  /** A clamp around this wire or part instead of two leads. */
  readonly around?: Ref;
}

export type Action =
  | { readonly verb: 'inspect'; readonly items: readonly Ref[] }
  | { readonly verb: 'operate' | 'ask' | 'do'; readonly text: string }
  | ({ readonly verb: 'measure'; readonly limits?: Specified; readonly specification?: Ref } & MeterPlace)
  | {
      readonly verb: 'read';
      readonly module?: Ref;
      readonly datum?: Ref;
      readonly limits?: Specified;
      readonly expect?: readonly Ref[];
    }
  | {
      readonly verb: 'record';
      readonly channels: readonly Ref[];
      readonly seconds?: number;
      readonly withinS?: number;
      readonly events: readonly { readonly channel: Ref; readonly what: Ref }[];
    }
  | { readonly verb: 'none' };

/** What a branch is taken on. */
export type Match =
  | { readonly on: 'within' | 'below' | 'above' | 'otherwise' }
  | { readonly on: 'limit'; readonly limit: Limit }
  | { readonly on: 'answer' }
  | { readonly on: 'always' };

export interface Branch {
  /** The key as written; for an instruction with one continuation the target itself. */
  readonly key: Ref;
  readonly match: Match;
  /** Name of a step or an ending; absent where nothing is written yet. */
  readonly target?: Ref;
  /** What the machine does where this is the answer. */
  readonly when?: Test;
  /** Faults, parts or items that this answer would show. */
  readonly shows: readonly Ref[];
}

export type SignalWord = 'danger' | 'warning' | 'caution' | 'notice';

export interface Caution extends Limited {
  readonly word: SignalWord;
  readonly text: string;
  readonly place: Place;
}

/** What one step says, in one variant. */
export interface StepData {
  /** Name of the step. */
  readonly id: string;
  readonly title?: string;
  readonly minutes?: number;
  readonly cautions: readonly Caution[];
  readonly tools: readonly Ref[];
  readonly needs?: Test;
  readonly set: readonly Setting[];
  readonly disconnect: readonly Ref[];
  readonly connect: readonly Ref[];
  readonly remove: readonly Ref[];
  readonly refit: readonly Ref[];
  readonly provoke: readonly { readonly how: Ref; readonly what: readonly Ref[] }[];
  readonly action: Action;
  /** The token of the verb (`measure`, `inspect`…); the step's name where there is none. */
  readonly actionPlace: Place;
  readonly branches: readonly Branch[];
  /** The token of `then`; absent where it is missing. */
  readonly thenPlace?: Place;
}

export interface Step extends Declared, Limited {
  readonly data: StepData;
  readonly byVariant: ReadonlyMap<string, StepData>;
}

export function stepIn(step: Step, variant: string): StepData {
  return step.byVariant.get(variant) ?? step.data;
}
