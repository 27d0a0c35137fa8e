import { numberProblem, unmetNeed } from '../../analysis/possible-state.ts';
import type { Bench } from '../bench.ts';
import { type Complaint, isShownByGood, situationOf } from './complaint.ts';
import { type Drafted, type DraftOptions, draft } from './draft.ts';

/** A draft, or why there can be none. `message` stands alone; what helps depends on who asked. */
export type Tried =
  | { readonly drafted: Drafted; readonly refused?: undefined }
  | { readonly refused: Refused; readonly drafted?: undefined };

export interface Refused {
  readonly because: 'not possible' | 'good machine' | 'no fault';
  readonly message: string;
}

/** Drafts a procedure for a complaint that some fault shows and no good machine does. */
export function tryDraft(complaint: Complaint, one: Bench, file: string, options?: DraftOptions): Tried {
  const impossible = impossibleIn(complaint, one);
  if (impossible !== undefined) return { refused: { because: 'not possible', message: impossible } };
  if (isShownByGood(complaint, one)) {
    const seen = complaint.when.map(([name, state]) => `\`${name}\` at ${state}`).join(' and ');
    return { refused: { because: 'good machine', message: `A good machine shows ${seen} as well` } };
  }
  const drafted = draft(complaint, one, file, options);
  if (drafted.suspects > 0) return { drafted };
  return { refused: { because: 'no fault', message: 'No modelled fault shows this complaint' } };
}

/** What is set and cannot be, by itself or without something else. */
function impossibleIn(complaint: Complaint, one: Bench): string | undefined {
  for (const [name, state] of complaint.set) {
    const number = one.system.conditions.get(name)?.number;
    const problem = number && numberProblem(name, state, number);
    if (problem) return problem.message;
  }
  return unmetNeed(one.system, situationOf(complaint, one).states);
}
