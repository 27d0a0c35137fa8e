import type { Proof, ProvedWalk } from '../../../server/src/proof/prove.ts';
import { isBad } from '../../../server/src/proof/walk-fault.ts';

/**
 * How a mutant in which nothing is found compares with the procedure. `same ways`: whatever is wrong with a machine and whatever its
 * values are, it takes the same branches to the same endings. `other ways, as right`: some machine goes another way, and every fault still
 * comes to a repair that mends it, or to whom it came before.
 */
export type Alike = 'same ways' | 'other ways, as right' | 'worse';

export function howAlike(before: Proof, after: Proof): Alike {
  const [was, is] = [before, after].map(({ walks }) => new Map(walks.map(walk => [idOf(walk), walk])));
  if ([...was!.keys(), ...is!.keys()].some(id => !was!.has(id) || !is!.has(id))) return 'worse';
  const pairs = [...was!].map(([id, walk]) => [walk, is!.get(id)!] as const);
  if (pairs.every(([a, b]) => waysOf(a) === waysOf(b))) return 'same ways';
  const isAsRight = pairs.every(([a, b]) => rank(b) <= rank(a));
  return isAsRight ? 'other ways, as right' : 'worse';
}

function idOf({ fault, nature, of, entry, start }: ProvedWalk): string {
  return [of.variant, fault?.id, nature, entry?.symptom?.text, entry?.code?.text, start].join('|');
}

/** Steps with the branches that may be taken there, by their names and by where they lead; then the endings. */
function waysOf({ exploration: { taken, ends } }: ProvedWalk): string {
  const moves = [...taken].map(([step, branches]) => {
    const told = [...branches].map(branch => branch?.target?.text ?? '');
    return `${step}: ${told.sort().join()}`;
  });
  const over = ends.map(end => (end.kind === 'ending' ? end.name : `${end.kind} at ${end.at}`));
  return [...moves.sort(), ...over.sort()].join('; ');
}

/** Rightly mended; left to somebody else; neither proved nor ruled out to be bad; bad. */
function rank({ worst, unproved }: ProvedWalk): number {
  if (isBad(worst.result)) return 3;
  if (unproved.length > 0) return 2;
  return worst.result === 'right' || worst.result === 'several' ? 0 : 1;
}
