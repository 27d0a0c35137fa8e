import type { Span } from './span.ts';

/** A token in a file: what a finding points at. */
export interface Place {
  readonly uri: string;
  readonly span: Span;
}

/** Text as the author wrote it, with where it stands. */
export interface Ref {
  readonly text: string;
  readonly place: Place;
}
