import type { ValuesCopyParams, ValuesState } from '../../server/src/protocol/values.ts';

/** From the extension to the view. */
export type ToView =
  | { readonly type: 'draw'; readonly uri: string; readonly state: ValuesState }
  /** A table is being worked out; the one that was drawn stays until then. */
  | { readonly type: 'working' }
  /** There is nothing to draw, and why. */
  | { readonly type: 'say'; readonly text: string }
  /** Something was done, for people who listen. */
  | { readonly type: 'done'; readonly text: string };

/** From the view to the extension: what somebody did. */
export type ToHost =
  /** The view has been made, or made anew after it was hidden, and wants everything. */
  | { readonly type: 'ready' }
  | { readonly type: 'choose variant'; readonly id: string }
  | { readonly type: 'copy'; readonly form: ValuesCopyParams['form'] }
  /** Show in the text what a point belongs to. */
  | { readonly type: 'show'; readonly point: string };

/** What the view keeps while the window is closed. */
export interface Kept {
  readonly uri: string;
  readonly variant?: string;
  readonly find: string;
}
