import type { Coverage, CoveredWalk } from '../../proof/coverage.ts';
import { isBad } from '../../proof/walk-fault.ts';
import {
  type FigureId,
  faultInWords,
  fewNames,
  figuresOf,
  percent,
  resultWords,
  shareOf,
  weightedShareOf,
} from '../../proof/words.ts';
import type { EndColumn, EndShare, FigureRow, ResultShare, WalkChoice } from '../../protocol/coverage.ts';

/** What walks of faults come to, from the best to the worst. */
export function resultShares(walks: readonly CoveredWalk[]): ResultShare[] {
  return resultWords.flatMap(([result, title, meaning]) => {
    const part = walks.filter(walk => walk.result === result);
    if (part.length === 0) return [];
    const [share, weighted] = [shareOf(part, walks), weightedShareOf(part, walks)];
    return {
      result,
      title,
      meaning,
      isBad: isBad(result),
      walks: part.length,
      share,
      percent: percent(share),
      weighted,
      weightedPercent: percent(weighted),
      choice: { results: [result] },
    };
  });
}

/** Where walks of faults end, each end with what it is for them. */
export function endShares(walks: readonly CoveredWalk[], columns: readonly EndColumn[]): EndShare[] {
  return columns.flatMap(column => {
    const here = walks.filter(({ ends }) => ends[0]!.at === column.at);
    if (here.length === 0) return [];
    const parts = resultShares(here).map(({ result, title, walks: count }) => ({
      result,
      title,
      walks: count,
      share: walks.length === 0 ? 0 : count / walks.length,
      choice: { results: [result], at: column.at },
    }));
    return { ...column, walks: here.length, percent: percent(shareOf(here, walks)), parts };
  });
}

/** The figures, each with the walks behind it. */
export function figureRows(coverage: Coverage): FigureRow[] {
  return figuresOf(coverage).map(({ id, name, counted, of, percent: share, weighted }) => ({
    name: name.charAt(0).toUpperCase() + name.slice(1),
    counted,
    of: share === undefined ? of : `of all ${of}`,
    percent: share ?? '',
    weighted: weighted ?? '',
    choice: choiceOf(id, coverage),
  }));
}

function choiceOf(id: FigureId, { walks, figures }: Coverage): WalkChoice | undefined {
  switch (id) {
    case 'named':
      return { results: ['right', 'several'] };
    case 'detected':
      return { results: ['right', 'several', 'handed on'] };
    case 'one':
      return { most: 1 };
    case 'few':
      return { most: fewNames };
    case 'wrong part':
      return { results: ['wrong part'] };
    case 'undecided':
      return { undecided: true };
    case 'unproved':
      return { unproved: true };
    case 'most minutes': {
      const { worst, worstFault } = figures.minutes;
      const longest = walks.find(({ fault, minutes }) => fault === worstFault && fault !== '' && minutes === worst);
      return longest && { fault: faultInWords(longest) };
    }
    default:
      return undefined;
  }
}
