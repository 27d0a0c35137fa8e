import type { FileView, ProcedureView, SamplesView, SystemView } from '../analysis/view.ts';
import type { Finding, Severity } from '../base/finding.ts';

export type RuleGroup =
  | 'text'
  | 'names'
  | 'structure'
  | 'limits'
  | 'circuit'
  | 'conditions'
  | 'safety'
  | 'proof'
  | 'samples';

interface Record {
  /** States the bad thing: `unreachable-step`. */
  readonly id: string;
  readonly severity: Severity;
  readonly group: RuleGroup;
  /** One sentence, as the title of its page. */
  readonly title: string;
  /** Why it matters and what to do, in Markdown, for a reader who does not program. */
  readonly explanation: string;
  /** Fixtures in the marks of tests/support: the bad one yields the rule at its mark, the good one nothing at all. */
  readonly bad: string;
  readonly good: string;
  /** It concludes from something being absent, so it says nothing while a part of the text could not be understood. */
  readonly needsWholeFile?: boolean;
}

/** A check with its own documentation. Rules of the stages before (syntax, shape, reading) have no `check`. */
export type Rule = Record &
  (
    | { readonly on: 'stage' }
    | { readonly on: 'procedure'; readonly check: (view: ProcedureView) => Iterable<Finding> }
    | { readonly on: 'system'; readonly check: (view: SystemView) => Iterable<Finding> }
    | { readonly on: 'samples'; readonly check: (view: SamplesView) => Iterable<Finding> }
    | { readonly on: 'any'; readonly check: (view: FileView) => Iterable<Finding> }
  );

/** Rule id to the severity that replaces the rule's own, as set by the reader. */
export type Levels = ReadonlyMap<string, Severity | 'off'>;

export type { FileView, Finding };
