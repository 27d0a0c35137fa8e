import type { Stretch } from '../project.ts';

export type CandidateKind = 'key' | 'template' | 'value' | 'unit' | 'file' | 'name';

/** One thing that completion offers. */
export interface Candidate {
  readonly label: string;
  readonly kind: CandidateKind;
  /** What stands in grey behind the label. */
  readonly detail?: string;
  /** In the snippet syntax of the Language Server Protocol where `isSnippet`. */
  readonly insert: string;
  readonly isSnippet: boolean;
  readonly replace: Stretch;
  /** Offered before the others. */
  readonly first?: boolean;
  /** Markdown; made only when somebody looks at it. */
  readonly documentation?: () => string;
}

/** A name or word before its place is known. */
export interface Word {
  readonly text: string;
  readonly detail?: string;
  readonly kind?: CandidateKind;
  readonly first?: boolean;
  readonly documentation?: () => string;
}

export function plain(text: string): string {
  return text.replace(/[\\$}]/g, '\\$&');
}
