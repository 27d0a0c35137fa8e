import type { ProcedureView } from '../../analysis/view.ts';
import { combinationInWords } from '../../analysis/words/combination.ts';
import type { CounterWalk, Finding, Related } from '../../base/finding.ts';
import type { Place } from '../../base/place.ts';
import type { Move } from '../../proof/explore.ts';
import type { ProvedWalk } from '../../proof/prove.ts';
import { inVariants, joined, name } from '../wording.ts';

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

/** What is the same in all findings about walks: the machine, the way it goes, and the other faults. */
export function asFinding(
  rule: string,
  view: ProcedureView,
  about: Blamed,
  { message, detail, help }: { readonly message: string; readonly detail: string; readonly help: string },
): Finding {
  const [first, ...others] = about.walks;
  const { nature, worst, of } = first;
  const where = inVariants(about.variants, [...new Set(view.cases.map(one => one.variant))]);
  const which = first.fault
    ? `${first.fault.title}, ${nature === 'hard' ? 'all the time' : 'now and then'}${where}.`
    : '';
  const values = worst.specimen && combinationInWords(worst.specimen.values);
  const machine = values ? ` It is so with ${values}.` : '';
  const rest =
    others.length > 0
      ? ` So do ${joined(
          others
            .slice(0, 5)
            .map(({ fault }) => name(fault?.id ?? ''))
            .concat(others.length > 5 ? [`${others.length - 5} more`] : []),
        )}.`
      : '';
  return {
    rule,
    place: about.place,
    message,
    detail: `${capital(`${which} ${detail}`.trim())}${machine}${rest}`,
    help,
    related: wayOf(view, worst.end.path),
    walk: counterWalk(first, `${of.view.uri}#${of.variant}`),
  };
}

/** The way as places in the text, a line each: what is read or answered there. */
function wayOf(view: ProcedureView, path: readonly Move[]): readonly Related[] {
  return path.flatMap(({ at, outcome }, i) => {
    const step = view.procedure.steps.get(at);
    return step ? [{ place: step.place, message: `${i + 1}. ${at}: ${outcome.text || 'done'}` }] : [];
  });
}

function counterWalk({ worst, entry, start }: ProvedWalk, variant: string): CounterWalk {
  const text = entry?.symptom?.text ?? entry?.code?.text;
  const answers = worst.end.path.map(({ at, outcome }) => ({ at, text: outcome.text }));
  return { variant, ...(text === undefined ? { from: start } : { start: text }), answers };
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
