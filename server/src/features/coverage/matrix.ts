import type { CoveredWalk } from '../../proof/coverage.ts';
import { isBad } from '../../proof/walk-fault.ts';
import { faultInWords, resultWords } from '../../proof/words.ts';
import type { CoverageLook, EndCell, EndColumn, FaultRow, Matrix, WalkChoice } from '../../protocol/coverage.ts';
import { titleOfResult } from './choose.ts';

/** Faults by ends: a row for each owner, and where it is unfolded one for each of its faults. */
export function matrixOf(
  walks: readonly CoveredWalk[],
  columns: readonly EndColumn[],
  { unfolded = [], list }: CoverageLook,
  titleOf: (owner: string) => string,
  many: number,
): Matrix {
  const used = columns.filter(({ at }) => walks.some(({ ends }) => ends.some(end => end.at === at)));
  const rows = [...grouped(walks, ({ owner }) => owner)].map(([owner, own]) => ({
    owner,
    title: titleOf(owner),
    walks: own.length,
    cells: cellsOf(own, used, { owner, narrowed: true }, owner === '' ? faultInWords(own[0]!) : owner, list),
    ...(unfolded.includes(owner) && owner !== '' && { faults: faultRows(own, used, list) }),
  }));
  const shown = new Set(walks.filter(({ fault }) => fault !== '').map(faultInWords)).size;
  return { columns: used, rows, left: shown === many ? `${many} faults` : `${shown} of ${many} faults` };
}

function faultRows(
  walks: readonly CoveredWalk[],
  columns: readonly EndColumn[],
  list: WalkChoice | undefined,
): FaultRow[] {
  return [...grouped(walks, faultInWords)].map(([fault, own]) => ({
    fault,
    title: own[0]!.title,
    walks: own.length,
    cells: cellsOf(own, columns, { fault, narrowed: true }, fault, list),
  }));
}

function cellsOf(
  walks: readonly CoveredWalk[],
  columns: readonly EndColumn[],
  choice: WalkChoice,
  who: string,
  list: WalkChoice | undefined,
): EndCell[] {
  return columns.flatMap(({ at }, column) => {
    const here = walks.filter(({ ends }) => ends[0]!.at === at);
    const others = walks.filter(({ ends }) => ends.slice(1).some(end => end.at === at));
    const worstOf = (results: readonly CoveredWalk['result'][]) =>
      resultWords.findLast(([result]) => results.includes(result))?.[0];
    const also = others.flatMap(({ ends }) => ends.slice(1).filter(end => end.at === at));
    const result = worstOf(here.map(one => one.result)) ?? worstOf(also.map(one => one.result));
    if (result === undefined) return [];
    const isOpen = also.some(end => end.open && isBad(end.result));
    const told = [
      ...(here.length > 0
        ? [`${here.length} ${here.length === 1 ? 'ends' : 'end'} here, ${titleOfResult(result)}`]
        : []),
      ...(also.length > 0 ? [`${others.length} ${here.length > 0 ? 'more ' : ''}may`] : []),
    ];
    const words = `${who} at ${at}: ${told.join('; ')}`;
    const isListed =
      list?.narrowed === true && list.at === at && list.owner === choice.owner && list.fault === choice.fault;
    return {
      column,
      walks: here.length,
      result,
      also: others.length,
      isOpen,
      isListed,
      words,
      choice: { ...choice, at },
    };
  });
}

function grouped<T>(all: readonly T[], keyOf: (one: T) => string): ReadonlyMap<string, readonly T[]> {
  const groups = new Map<string, T[]>();
  for (const one of all) {
    const known = groups.get(keyOf(one));
    if (known) known.push(one);
    else groups.set(keyOf(one), [one]);
  }
  return groups;
}
