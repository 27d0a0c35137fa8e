/** A piece of a file that is parsed on its own and kept while its text stays the same. */
export interface Unit {
  readonly text: string;
}

/** Offsets in UTF-16 code units from the start of the unit, so that they stay true when text before the unit changes. */
export interface Span {
  readonly unit: Unit;
  readonly start: number;
  readonly end: number;
}
