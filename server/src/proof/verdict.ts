import type { Fault } from '../analysis/faults/fault.ts';
import { type EndingData, isRepair } from '../model/procedure.ts';

/**
 * What an ending is for a machine with these faults. `several`: the repair names more than the fault needs, the owner among them.
 * `handed on`: the procedure says that somebody else, or another procedure, goes on from here.
 */
export type Verdict = 'right' | 'several' | 'wrong part' | 'not found' | 'handed on';

export function verdictAt(data: EndingData, faults: readonly Fault[]): Verdict {
  const { kind, items } = data;
  const names = items.map(({ text }) => text);
  const blames = isRepair(kind) || (kind === 'refer' && names.length > 0);
  if (faults.length === 0)
    return blames ? 'wrong part' : kind === 'no fault' || kind === 'repaired' ? 'right' : 'handed on';
  if (!blames) return kind === 'no fault' || kind === 'repaired' || kind === 'none' ? 'not found' : 'handed on';
  const mending = faults.map(({ mendedBy }) => mendedBy);
  if (!mending.some(parts => parts.some(part => names.includes(part)))) return 'wrong part';
  const needed = new Set(mending.flat());
  return names.every(item => needed.has(item)) ? 'right' : 'several';
}

/** Whether the repair removes one of the faults. */
export function isRightly(data: EndingData, faults: readonly Fault[]): boolean {
  const verdict = verdictAt(data, faults);
  return isRepair(data.kind) && (verdict === 'right' || verdict === 'several');
}
