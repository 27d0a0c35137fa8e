import type { PreviewState } from '../../server/src/protocol/preview.ts';

/** From the extension to the view. */
export type ToView =
  | { readonly type: 'draw'; readonly uri: string; readonly state: PreviewState }
  /** There is nothing to draw, and why. */
  | { readonly type: 'say'; readonly text: string };

/** From the view to the extension: what somebody did. */
export type ToHost =
  /** The view has been made, or made anew after it was hidden, and wants everything. */
  | { readonly type: 'ready' }
  | { readonly type: 'answer'; readonly at: string; readonly text: string }
  | { readonly type: 'back' }
  /** Back to before the answer with this index. */
  | { readonly type: 'back to'; readonly index: number }
  | { readonly type: 'start over' }
  | { readonly type: 'choose variant' | 'choose start' | 'choose sample'; readonly id: string }
  | { readonly type: 'play to the end' }
  /** Look at a step or an ending, here and in the text. */
  | { readonly type: 'show'; readonly name: string }
  | { readonly type: 'start here'; readonly name: string }
  /** Goes on in the procedure that the ending at hand names. */
  | { readonly type: 'continue' };
