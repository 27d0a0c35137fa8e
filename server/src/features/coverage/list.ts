import type { CoveredWalk } from '../../proof/coverage.ts';
import { faultInWords, machineInWords, rounded } from '../../proof/words.ts';
import type { ListedWalk, WalkChoice, WalkList } from '../../protocol/coverage.ts';
import { choiceInWords, chosenEnd, chosenWalks, type Numbered, titleOfResult } from './choose.ts';

/** More than these are listed only where all are asked for. */
const mostListed = 40;

/** The walks of a choice; nothing where there is none. */
export function listOf(
  walks: readonly Numbered[],
  choice: WalkChoice,
  titleOfEnd: (at: string) => string,
): WalkList | undefined {
  const chosen = chosenWalks(walks, choice);
  if (chosen.length === 0) return undefined;
  const listed = choice.all ? chosen : chosen.slice(0, mostListed);
  return {
    title: `${choiceInWords(choice)}: ${chosen.length} ${chosen.length === 1 ? 'walk' : 'walks'}`,
    walks: listed.map(one => listedWalk(one, choice, titleOfEnd)),
    more: chosen.length - listed.length,
  };
}

function listedWalk({ walk, index }: Numbered, choice: WalkChoice, titleOfEnd: (at: string) => string): ListedWalk {
  const end = chosenEnd(walk, choice);
  return {
    walk: index,
    end: walk.ends.indexOf(end),
    fault: faultInWords(walk),
    title: walk.title === walk.fault ? '' : walk.title,
    entry: walk.entry === '' ? `step ${walk.start}` : walk.entry,
    result: end.result,
    resultTitle: titleOfResult(end.result),
    at: end.at,
    atTitle: titleOfEnd(end.at),
    minutes: `${rounded(end.minutes)} min`,
    way: end.path.map(({ at, text }) => ({ at, text })),
    remarks: remarksOn(walk, end),
  };
}

function remarksOn({ ends, undecided }: CoveredWalk, end: CoveredWalk['ends'][number]): string[] {
  const others = ends.filter(one => one !== end);
  const isFirst = end === ends[0];
  const machine = machineInWords(end);
  return [
    ...(end.why === '' ? [] : [`It goes no further: ${end.why}`]),
    ...(machine === '' ? [] : [`It is so with ${machine}`]),
    ...(isFirst && undecided ? ['Other machines inside the tolerances come to a better end'] : []),
    ...(end.open ? ['No machine is found that comes to it, nor is it ruled out'] : []),
    ...(others.length === 0
      ? []
      : [`May also end at ${others.map(({ at, result }) => `${at} (${titleOfResult(result)})`).join(', ')}`]),
  ];
}
