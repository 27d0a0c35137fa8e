import { unmetNeed } from '../../analysis/unmet-need.ts';
import type { Bench } from '../bench.ts';
import { type Complaint, isShownByGood, situationOf } from './complaint.ts';
import { type Drafted, type DraftOptions, draft } from './draft.ts';

/** A draft, or why there can be none. `message` stands alone; what helps depends on who asked. */
export type Tried =
  | { readonly drafted: Drafted; readonly refused?: undefined }
  | { readonly refused: Refused; readonly drafted?: undefined };

export interface Refused {
  readonly because: 'needs more' | 'good machine' | 'no fault';
  readonly message: string;
}

/** Drafts a procedure for a complaint that some fault shows and no good machine does. */
export function tryDraft(complaint: Complaint, one: Bench, file: string, options?: DraftOptions): Tried {
  const need = unmetNeed(one.system, situationOf(complaint, one).states);
  if (need !== undefined) return { refused: { because: 'needs more', message: need } };
  if (isShownByGood(complaint, one)) {
    const seen = complaint.when.map(([name, state]) => `\`${name}\` at ${state}`).join(' and ');
    return { refused: { because: 'good machine', message: `A good machine shows ${seen} as well` } };
  }
  const drafted = draft(complaint, one, file, options);
  if (drafted.suspects > 0) return { drafted };
  return { refused: { because: 'no fault', message: 'No modelled fault shows this complaint' } };
}
