import type { Ref, Test } from '../../model/common.ts';
import type { Action, Lead, MeterPlace, Setting } from '../../model/step.ts';
import type { Lookup, Piece } from './lookup.ts';
import { isWritten, type Occurrence, pieceOf, type Thing } from './thing.ts';

/** Every piece of a written name that was understood, as a mention of the thing it stands for. */
export function mentions(ref: Ref | undefined, pieces: (text: string) => Piece[]): Occurrence[] {
  if (!ref || !isWritten(ref)) return [];
  return pieces(ref.text).map(({ thing, from, to }) => ({ thing, place: pieceOf(ref, from, to), declares: false }));
}

export function declaration(thing: Thing, ref: Ref): Occurrence {
  return { thing, place: pieceOf(ref), declares: true };
}

export function mentionsIn(refs: readonly Ref[] | undefined, pieces: (text: string) => Piece[]): Occurrence[] {
  return (refs ?? []).flatMap(ref => mentions(ref, pieces));
}

export function inTest(test: Test | undefined, lookup: Lookup): Occurrence[] {
  return (test ?? [])
    .flat()
    .flatMap(({ name, states }) => [
      ...mentions(name, lookup.settable),
      ...mentionsIn(states, text => lookup.state(name.text, text)),
    ]);
}

export function inSettings(settings: readonly Setting[], lookup: Lookup): Occurrence[] {
  return settings.flatMap(({ name, state }) => [
    ...mentions(name, lookup.settable),
    ...mentions(state, text => lookup.state(name.text, text)),
  ]);
}

export function inMeterPlace(at: MeterPlace, lookup: Lookup): Occurrence[] {
  return [...inLead(at.red, lookup), ...inLead(at.black, lookup), ...mentions(at.around, lookup.item)];
}

function inLead(lead: Lead | undefined, lookup: Lookup): Occurrence[] {
  if (!lead) return [];
  return [...mentions(lead.point, lookup.point), ...mentions(lead.side, sideOf(lookup))];
}

/** `S6 side` names S6; `part side` and `harness side` name nothing. */
function sideOf(lookup: Lookup): (text: string) => Piece[] {
  return text => {
    const owner = text.replace(/ side$/, '');
    return owner === 'part' || owner === 'harness' ? [] : lookup.item(owner);
  };
}

/** `A1 keypad` of a step that reads, as one text: only the system knows where the name of the module ends. */
export function readText(action: Action): Ref | undefined {
  if (action.verb !== 'read' || !action.module) return undefined;
  const { uri, span } = action.module.place;
  const end = Math.max(span.end, action.datum?.place.span.unit === span.unit ? action.datum.place.span.end : 0);
  return { text: span.unit.text.slice(span.start, end), place: { uri, span: { ...span, end } } };
}

/** The states of what such a step reads. */
export function readState(action: Action, lookup: Lookup): (text: string) => Piece[] {
  const datum = lookup.scan(readText(action)?.text ?? '').at(-1)?.thing;
  return text => (datum?.owner === undefined ? [] : lookup.datumState(datum.owner, datum.name, text));
}
