import type { CoverageLook, CoverageState, WalkChoice } from '../../server/src/protocol/coverage.ts';

/** From the extension to the view. */
export type ToView =
  | { readonly type: 'draw'; readonly uri: string; readonly state: CoverageState }
  /** There is nothing to draw, and why. */
  | { readonly type: 'say'; readonly text: string };

/** From the view to the extension: what somebody did. */
export type ToHost =
  /** The view has been made, or made anew after it was hidden, and wants everything. */
  | { readonly type: 'ready' }
  | { readonly type: 'choose variant'; readonly id: string }
  | { readonly type: 'find'; readonly text: string }
  | { readonly type: 'bad only'; readonly on: boolean }
  /** Show the faults of an owner one by one, or no longer. */
  | { readonly type: 'unfold'; readonly owner: string }
  | { readonly type: 'list'; readonly choice: WalkChoice }
  | { readonly type: 'list all' | 'close list' }
  /** Step through a walk in the preview. */
  | { readonly type: 'walk'; readonly walk: number; readonly end: number }
  /** Show an ending or a step in the text. */
  | { readonly type: 'show'; readonly at: string };

/** What the view keeps while the window is closed. */
export interface Kept {
  readonly uri: string;
  readonly look: CoverageLook;
}
