import type { Place } from './place.ts';

export type Severity = 'error' | 'warning' | 'information' | 'hint';

/**
 * One mistake, at one token, in the author's words. How severe it is stands in the record of its rule, not here.
 */
export interface Finding {
  /** Id of the rule, for example `unreachable-step`. */
  readonly rule: string;
  readonly place: Place;
  /** What is wrong: at most 90 characters, stands alone, names in backticks, no full stop. */
  readonly message: string;
  /** Why it matters here, with the concrete names and numbers. */
  readonly detail?: string;
  /** What to do, beginning with a verb. */
  readonly help?: string;
  readonly related?: readonly Related[];
  readonly fixes?: readonly Fix[];
  /** A walk through the procedure that shows it. */
  readonly walk?: CounterWalk;
}

/** A walk that the preview can step through. */
export interface CounterWalk {
  /** Uri of the system file, `#`, variant. */
  readonly variant: string;
  /** The symptom or code it starts from. */
  readonly start?: string;
  /** The step it starts at, where no symptom or code leads there. */
  readonly from?: string;
  readonly answers: readonly { readonly at: string; readonly text: string }[];
}

export interface Related {
  readonly place: Place;
  readonly message: string;
}

/** A change that the author can accept with one key. */
export interface Fix {
  readonly title: string;
  readonly edits: readonly Edit[];
  /** The one fix that is certainly meant; these are applied by `check --fix`. */
  readonly preferred?: boolean;
}

export interface Edit {
  readonly place: Place;
  readonly text: string;
}
