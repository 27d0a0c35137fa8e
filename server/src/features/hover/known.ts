import type { Stretch } from '../project.ts';

/** What is known about a stretch of text, in Markdown. */
export interface Hover extends Stretch {
  readonly markdown: string;
}
