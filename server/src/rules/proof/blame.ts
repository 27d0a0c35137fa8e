import type { ProcedureView } from '../../analysis/view.ts';
import { combinationInWords } from '../../analysis/words/combination.ts';
import type { CounterWalk, Finding, Related } from '../../base/finding.ts';
import type { Place } from '../../base/place.ts';
import type { End, Move } from '../../proof/explore.ts';
import type { ProvedWalk } from '../../proof/prove.ts';
import { inVariants, name, named } from '../wording.ts';

/** Walks that one place is to blame for, the likeliest fault first; each fault once. */
export interface Blamed {
  readonly place: Place;
  readonly walks: readonly [ProvedWalk, ...ProvedWalk[]];
  /** Of the same faults in other variants, natures and from other ways in. */
  readonly variants: readonly string[];
}

/** Walks by the place that is to blame for their end, in the order in which they are found. */
export function blamed(
  walks: readonly ProvedWalk[],
  placeOf: (walk: ProvedWalk) => Place | undefined,
): readonly Blamed[] {
  const found = new Map<Place['span'], { place: Place; walks: ProvedWalk[] }>();
  for (const walk of walks) {
    const place = placeOf(walk);
    if (!place) continue;
    const known = found.get(place.span);
    if (known) known.walks.push(walk);
    else found.set(place.span, { place, walks: [walk] });
  }
  return [...found.values()].map(({ place, walks: all }) => {
    const once = all.filter((one, i) => all.findIndex(other => other.fault?.id === one.fault?.id) === i);
    const sorted = once.sort(
      (a, b) =>
        (b.fault?.likelihood ?? 0) - (a.fault?.likelihood ?? 0) || a.worst.end.path.length - b.worst.end.path.length,
    );
    const [first, ...others] = sorted;
    return { place, walks: [first!, ...others], variants: [...new Set(all.map(({ of }) => of.variant))] };
  });
}

/** The branch that a walk takes last; the entry's start where there is none. */
export function lastBranch(view: ProcedureView, { worst, entry }: ProvedWalk): Place | undefined {
  const last = worst.end.path.at(-1)?.outcome.branch;
  return last?.target?.place ?? last?.key.place ?? (entry?.start ?? view.procedure.start)?.place;
}

/** The start of a message: `` `W41 open` ``, or `` 3 faults `` and the first of them later. */
export function faultsInWords({ walks: [first, ...others] }: Blamed, one: string, several: string): string {
  const id = name(first.fault?.id ?? 'no fault');
  const told = others.length === 0 ? `${id} ${one}` : `${others.length + 1} faults ${several}, first ${id}`;
  return told.length <= 90 ? told : others.length === 0 ? `A fault ${one}` : `${others.length + 1} faults ${several}`;
}

/** `` comes to `replace-starter` `` */
export function leadsTo(end: End): string {
  return end.kind === 'ending' ? `comes to ${name(end.name)}` : `gets stuck at ${name(end.at)}`;
}

/** What is the same in all findings about walks: the machine, the way it goes, and the other faults. */
export function asFinding(
  rule: string,
  view: ProcedureView,
  about: Blamed,
  { message, detail, help, fixes, end = about.walks[0].worst.end }: Told,
): Finding {
  const [first, ...others] = about.walks;
  const { worst, of } = first;
  const specimen = end === worst.end ? worst.specimen : undefined;
  const values = specimen && (combinationInWords(specimen.values) || (worst.isUndecided && 'nominal values'));
  const machine = values && `It is so with ${values}.`;
  const rest =
    others.length > 0 &&
    `The same goes for ${named(
      others.map(({ fault }) => fault?.id ?? ''),
      6,
    )}.`;
  return {
    rule,
    place: about.place,
    message,
    detail: [what(about, view), detail, machine, rest].filter(Boolean).join(' '),
    help,
    related: wayOf(view, end.path),
    fixes,
    walk: counterWalk(first, end.path, `${of.view.uri}#${of.variant}`),
  };
}

/** What one rule says of its walks. */
interface Told extends Pick<Finding, 'message' | 'fixes'> {
  readonly detail: string;
  readonly help: string;
  /** The end that is told about, if not the worst one. */
  readonly end?: End;
}

/** The likeliest fault in a sentence. */
function what({ walks: [{ fault, nature }], variants }: Blamed, view: ProcedureView): string {
  if (!fault) return '';
  const all = [...new Set(view.cases.map(one => one.variant))];
  return `${fault.title}${nature === 'intermittent' ? ', now and then' : ''}${inVariants(variants, all)}.`;
}

/** The way as places in the text, a line each: what is read or answered there. */
function wayOf(view: ProcedureView, path: readonly Move[]): readonly Related[] {
  return path.flatMap(({ at, outcome }, i) => {
    const step = view.procedure.steps.get(at);
    return step ? [{ place: step.place, message: `${i + 1}. ${at}: ${outcome.text || 'done'}` }] : [];
  });
}

function counterWalk({ entry, start }: ProvedWalk, path: readonly Move[], variant: string): CounterWalk {
  const text = entry?.symptom?.text ?? entry?.code?.text;
  const answers = path.map(({ at, outcome }) => ({ at, text: outcome.text }));
  return { variant, ...(text === undefined ? { from: start } : { start: text }), answers };
}
