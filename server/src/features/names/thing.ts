import type { Place, Ref } from '../../base/place.ts';

export type ThingKind =
  | 'part'
  | 'terminal'
  | 'connector'
  | 'cavity'
  | 'ground'
  | 'splice'
  | 'wire'
  | 'condition'
  | 'state'
  | 'variant'
  | 'specification'
  | 'row'
  | 'scan datum'
  | 'failure'
  | 'step'
  | 'ending'
  | 'answer'
  | 'entry';

/** Something with a name, told apart from everything else by the file that declares it, its kind, its owner and its name. */
export interface Thing {
  readonly kind: ThingKind;
  readonly name: string;
  /** The file that declares it. */
  readonly uri: string;
  /** The part of a terminal, the connector of a cavity, the condition of a state, the step of an answer. */
  readonly owner?: string;
}

/** One place in a file where a thing is named. */
export interface Occurrence {
  readonly thing: Thing;
  /** The name alone: of `X12/3 (S6 side)` there are three occurrences. */
  readonly place: Place;
  readonly declares: boolean;
}

export function isSame(a: Thing, b: Thing): boolean {
  return a.name === b.name && a.kind === b.kind && a.owner === b.owner && a.uri === b.uri;
}

export function keyOf(thing: Thing): string {
  return JSON.stringify([thing.uri, thing.kind, thing.owner ?? '', thing.name]);
}

/** The characters `from` to `to` of what the author wrote, without the quotes around it. */
export function pieceOf(ref: Ref, from = 0, to = ref.text.length): Place {
  const { unit, start, end } = ref.place.span;
  const at = start + Math.max(0, unit.text.slice(start, end).indexOf(ref.text));
  return { uri: ref.place.uri, span: { unit, start: at + from, end: Math.min(at + to, end) } };
}

/** False for a name that nobody wrote: the terminals of a switch, for example, are those of its kind. */
export function isWritten({ text, place: { span } }: Ref): boolean {
  const raw = span.unit.text.slice(span.start, span.end);
  return raw === text || /^(["']).*\1$/s.test(raw);
}
