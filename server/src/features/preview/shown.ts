import type { Situation } from '../../analysis/situation.ts';
import type { Sheet } from '../../protocol/preview.ts';
import { type Arrival, arrivalOf } from '../../walk/situations.ts';
import { type Course, type Standing, stand, type Walk } from '../../walk/walk.ts';
import { sheetOf } from './sheet.ts';

/** The step at hand, or another one that somebody looks at. `first` is the situation in which the walk began. */
export function shownSheet(walk: Walk, name: string | undefined, first: Situation | undefined): Sheet {
  const { course, passed, at } = walk;
  const other = name === undefined || name === at.name ? undefined : stand(course, name);
  if (!other || other.kind === 'nowhere') return sheetOf(course, at, arrivalOf(walk, first), true);
  const index = passed.findLastIndex(({ from }) => from.name === name);
  const arrival =
    index < 0
      ? arrivalBesideWalk(course, other)
      : arrivalOf({ ...walk, passed: passed.slice(0, index), at: other }, first);
  return sheetOf(course, other, arrival, false);
}

/** As somebody can come there who walks another way. */
function arrivalBesideWalk({ of }: Course, { name, data }: Standing): Arrival | undefined {
  if (!of) return undefined;
  const before = of.flow.arriving(name)[0] ?? of.flow.atEnding(name)[0] ?? of.circuit.rest;
  return { before, after: of.after(data, before) };
}
