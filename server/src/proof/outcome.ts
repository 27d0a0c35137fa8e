import type { Limit } from '../base/quantity/limit.ts';
import type { PartValue } from '../circuit/reading.ts';
import type { Branch } from '../model/step.ts';

/** One way on from a step. */
export interface Outcome {
  /** Absent: none takes what is shown, or no answer fits where the text is empty. */
  readonly branch: Branch | undefined;
  /** What the meter shows, or the answer; empty for an instruction that leads on by itself. */
  readonly text: string;
  /**
   * `certain`: the only one. `either`: whoever looks may give it, and may give another. `tolerance`: some machines inside the tolerances take it, and some another. `open`: nothing that is known
   * tells between it and others. `enclosed`: it lies within what is not ruled out, and no machine that takes it can be named.
   */
  readonly why: 'certain' | 'either' | 'tolerance' | 'open' | 'enclosed';
}

/** Where a step leads on one machine. */
export type Outcomes =
  | {
      readonly kind: 'leads on';
      readonly outcomes: readonly Outcome[];
      /** The values behind the two ends of the reading, where tolerances decide. */
      readonly ends: readonly (readonly PartValue[])[];
      /** Between what and what the reading is, the error of the meter included. */
      readonly range?: Pick<Limit, 'low' | 'high' | 'dimension'>;
    }
  /** It cannot be done, or nothing fits what it shows; `text` is what is read. */
  | { readonly kind: 'stuck'; readonly why: string; readonly text: string }
  /** What it shows is not computed, so it may lead anywhere. */
  | { readonly kind: 'unknown'; readonly why: string };

export function certain(branch: Branch, text: string): Outcomes {
  return { kind: 'leads on', outcomes: [{ branch, text, why: 'certain' }], ends: [] };
}

export function stuck(why: string, text = ''): Outcomes {
  return { kind: 'stuck', why, text };
}

export const noAnswer = 'No answer fits what the machine does here';
