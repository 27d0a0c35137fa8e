import type { Span } from '../base/span.ts';

export type ShapeProblemId =
  | 'unknown-key'
  | 'missing-key'
  | 'conflicting-keys'
  | 'wrong-shape'
  | 'wrong-count'
  | 'empty-value'
  | 'unknown-kind'
  | 'unknown-value'
  | 'more-than-one-action'
  | 'no-action'
  | 'wrong-format-version';

/** One mistake in the structure of a file, at one token. */
export interface ShapeProblem {
  readonly id: ShapeProblemId;
  readonly span: Span;
  readonly message: string;
  readonly detail?: string;
  readonly help?: string;
  readonly fixes?: readonly ShapeFix[];
  /** The key that is missing. */
  readonly key?: string;
}

export interface ShapeFix {
  readonly title: string;
  readonly span: Span;
  readonly text: string;
  /** Certainly meant, so that it may be made without asking. */
  readonly preferred?: boolean;
}
