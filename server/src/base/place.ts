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

/** Of what is asked about and stands in no file. */
export const nowhere: Place = { uri: '', span: { unit: { text: '' }, start: 0, end: 0 } };

/** A name that stands in no file. */
export function unwritten(text: string): Ref {
  return { text, place: nowhere };
}
