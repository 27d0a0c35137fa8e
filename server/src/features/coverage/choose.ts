import { type CoveredEnd, type CoveredWalk, groupSizeOf } from '../../proof/coverage.ts';
import { isBad } from '../../proof/walk-fault.ts';
import { faultInWords, isUnproved, resultWords } from '../../proof/words.ts';
import type { CoverageLook, ResultName, WalkChoice } from '../../protocol/coverage.ts';

/** A walk with its place among all of its variant. */
export interface Numbered {
  readonly walk: CoveredWalk;
  readonly index: number;
}

/** Whether a walk is among those that are looked for by a name, or by how they end. */
export function isLookedFor({ find = '', badOnly }: CoverageLook, titleOf: (owner: string) => string) {
  const wanted = find.trim().toLowerCase();
  return (walk: CoveredWalk) => {
    if (badOnly && !isBad(walk.result) && !isUnproved(walk)) return false;
    const names = [faultInWords(walk), walk.title, walk.owner, titleOf(walk.owner)];
    return names.some(name => name.toLowerCase().includes(wanted));
  };
}

/** The walks of a choice, those that end so before those that only may. */
export function chosenWalks(walks: readonly Numbered[], choice: WalkChoice): readonly Numbered[] {
  const { at, results, owner, fault, most, undecided, unproved } = choice;
  const chosen = walks.filter(({ walk }) => {
    if (owner === undefined && fault === undefined && walk.fault === '') return false;
    if (owner !== undefined && walk.owner !== owner) return false;
    if (fault !== undefined && faultInWords(walk) !== fault) return false;
    if (results && !results.includes(walk.result)) return false;
    if (most !== undefined && (groupSizeOf(walk) ?? Number.POSITIVE_INFINITY) > most) return false;
    if (undecided && !walk.undecided) return false;
    if (unproved && !isUnproved(walk)) return false;
    return at === undefined || walk.ends.some(end => end.at === at);
  });
  if (at === undefined) return chosen;
  const isFirst = ({ walk }: Numbered) => walk.ends[0]!.at === at;
  // With a result the count is of walks that end there, without one also of those that may.
  return [...chosen.filter(isFirst), ...(results ? [] : chosen.filter(one => !isFirst(one)))];
}

/** Which of its ends a walk is listed for. */
export function chosenEnd({ ends }: CoveredWalk, { at, unproved }: WalkChoice): CoveredEnd {
  const found = at === undefined ? unproved && ends.find(({ open }) => open) : ends.find(end => end.at === at);
  return found || ends[0]!;
}

/** A heading for the walks of a choice: `W41, not found at nothing-wrong`. */
export function choiceInWords(choice: WalkChoice): string {
  const { at, results = [], owner, fault, most, undecided, unproved } = choice;
  const who = fault ?? (owner === '' ? faultInWords({ fault: '', nature: 'hard' }) : owner);
  const what = [
    ...(results.length > 0 ? [results.map(titleOfResult).join(', ')] : []),
    ...(most === undefined ? [] : [most === 1 ? 'isolated to one name' : `isolated to at most ${most} names`]),
    ...(undecided ? ['inside tolerances on either side'] : []),
    ...(unproved ? ['neither proved nor ruled out'] : []),
  ].join(', ');
  if (who === undefined) {
    const told = at === undefined ? what : `${what || 'ends'} at ${at}`;
    return told.charAt(0).toUpperCase() + told.slice(1);
  }
  return [who, [what, at && `at ${at}`].filter(Boolean).join(' ')].filter(Boolean).join(', ');
}

export function titleOfResult(result: ResultName): string {
  return resultWords.find(([name]) => name === result)![1];
}
