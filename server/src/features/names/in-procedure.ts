import { resolveFile } from '../../analysis/resolve.ts';
import type { Ref } from '../../model/common.ts';
import type { EndingData, Procedure } from '../../model/procedure.ts';
import type { Action, StepData } from '../../model/step.ts';
import type { System } from '../../model/system.ts';
import { type Lookup, lookupIn, type Piece } from './lookup.ts';
import { declaration, inMeterPlace, inSettings, inTest, mentions, mentionsIn, readState, readText } from './mention.ts';
import type { Occurrence } from './thing.ts';

/** Every name in a procedure. What stands in a system is found in each system that the procedure applies to. */
export function namesInProcedure(procedure: Procedure, systems: readonly System[]): Occurrence[] {
  const flow = flowLookup(procedure);
  return [
    ...mentions(procedure.start, flow.target),
    ...procedure.entries.flatMap(entry => {
      const ref = entry.symptom ?? entry.code;
      return [
        ...(ref ? [declaration({ kind: 'entry', name: ref.text, uri: procedure.uri }, ref)] : []),
        ...mentions(entry.start, flow.target),
      ];
    }),
    ...[...procedure.steps.values()].flatMap(step => [
      declaration({ kind: 'step', name: step.id, uri: procedure.uri }, { text: step.id, place: step.place }),
      ...[step.data, ...step.byVariant.values()].flatMap(data => [
        ...answersOf(procedure, step.id, data),
        ...data.branches.flatMap(branch => mentions(branch.target, flow.target)),
      ]),
    ]),
    ...[...procedure.endings.values()].flatMap(ending => [
      declaration({ kind: 'ending', name: ending.id, uri: procedure.uri }, { text: ending.id, place: ending.place }),
      ...[ending.data, ...ending.byVariant.values()].flatMap(data => mentions(data.confirm, flow.target)),
    ]),
    ...procedure.allow.flatMap(allowance => mentionsIn(allowance.within, flow.target)),
    ...systems.flatMap(system => inSystem(procedure, lookupIn(system))),
  ];
}

/** What the names of steps, endings and answers stand for. */
export function flowLookup(procedure: Procedure) {
  const { uri, steps, endings, entries } = procedure;
  const whole = (kind: 'step' | 'ending' | 'entry' | 'answer', name: string, owner?: string): Piece[] => [
    { thing: { kind, name, uri, ...(owner !== undefined && { owner }) }, from: 0, to: name.length },
  ];
  return {
    target: (text: string) => (steps.has(text) ? whole('step', text) : endings.has(text) ? whole('ending', text) : []),
    entry: (text: string) =>
      entries.some(entry => (entry.symptom ?? entry.code)?.text === text) ? whole('entry', text) : [],
    answer(step: string, text: string): Piece[] {
      const found = steps.get(step);
      const datas = found ? [found.data, ...found.byVariant.values()] : [];
      const known = datas.some(data => data.branches.some(b => b.match.on === 'answer' && b.key.text === text));
      return known ? whole('answer', text, step) : [];
    },
  };
}

function answersOf(procedure: Procedure, step: string, data: StepData): Occurrence[] {
  return data.branches
    .filter(branch => branch.match.on === 'answer' && data.action.verb !== 'record' && data.action.verb !== 'read')
    .map(({ key }) => declaration({ kind: 'answer', name: key.text, uri: procedure.uri, owner: step }, key));
}

function inSystem(procedure: Procedure, lookup: Lookup): Occurrence[] {
  const only = (thing: { only?: readonly Ref[] }) => mentionsIn(thing.only, lookup.variant);
  return [
    ...procedure.appliesTo
      .filter(({ file }) => resolveFile(procedure.uri, file.text) === lookup.system.uri)
      .flatMap(({ variants }) => (variants === 'all' ? [] : mentionsIn(variants, lookup.variant))),
    ...procedure.entries.flatMap(({ set, when, shows }) => [
      ...inSettings(set, lookup),
      ...inTest(when, seen(lookup)),
      ...mentionsIn(shows, lookup.item),
    ]),
    ...mentionsIn(
      procedure.leavesOut.map(({ name }) => name),
      lookup.item,
    ),
    ...procedure.cautions.flatMap(only),
    ...[...procedure.steps.values()].flatMap(step => [
      ...only(step),
      ...[step.data, ...step.byVariant.values()].flatMap(data => knownInStep(data, lookup)),
    ]),
    ...[...procedure.endings.values()].flatMap(ending => [
      ...only(ending),
      ...[ending.data, ...ending.byVariant.values()].flatMap(data => inEnding(data, lookup)),
    ]),
    ...procedure.allow.flatMap(allowance => mentionsIn(allowance.within, lookup.item)),
  ];
}

const known = new WeakMap<System, WeakMap<StepData, readonly Occurrence[]>>();

/** Steps keep their identity while their text does, and systems theirs, so after an edit the names of one step are looked up anew. */
function knownInStep(data: StepData, lookup: Lookup): readonly Occurrence[] {
  const inSystem = known.get(lookup.system) ?? new WeakMap<StepData, readonly Occurrence[]>();
  const names = inSystem.get(data) ?? inStep(data, lookup);
  known.set(lookup.system, inSystem.set(data, names));
  return names;
}

function inStep(data: StepData, lookup: Lookup): Occurrence[] {
  return [
    ...inTest(data.needs, lookup),
    ...inSettings(data.set, lookup),
    ...mentionsIn([...data.disconnect, ...data.connect, ...data.remove, ...data.refit], lookup.item),
    ...data.provoke.flatMap(({ what }) => mentionsIn(what, lookup.item)),
    ...inAction(data.action, lookup),
    ...data.branches.flatMap(branch => [
      ...inTest(branch.when, seen(lookup)),
      ...mentionsIn(branch.shows, lookup.item),
      ...(data.action.verb === 'record' ? mentions(branch.key, movedFirst(lookup)) : []),
    ]),
  ];
}

function inAction(action: Action, lookup: Lookup): Occurrence[] {
  switch (action.verb) {
    case 'inspect':
      return mentionsIn(action.items, lookup.item);
    case 'measure':
      return [...inMeterPlace(action, lookup), ...mentions(action.specification, lookup.specification)];
    case 'read':
      return [
        ...mentions(readText(action), text => orElse(lookup.scan(text), () => lookup.item(action.module?.text ?? ''))),
        ...mentionsIn(action.expect, readState(action, lookup)),
      ];
    case 'record':
      return [
        ...mentionsIn(action.channels, channel(lookup)),
        ...action.events.flatMap(event => mentions(event.channel, channel(lookup))),
      ];
    default:
      return [];
  }
}

function inEnding(data: EndingData, lookup: Lookup): Occurrence[] {
  return [...mentionsIn([...data.items, ...data.connect, ...data.refit], lookup.item), ...inSettings(data.set, lookup)];
}

/** A test of what the machine does names `A1 keypad` and `A1.22` besides what can be set. */
function seen(lookup: Lookup): Lookup {
  return {
    ...lookup,
    settable: text => orElse(lookup.scan(text), () => orElse(lookup.settable(text), () => lookup.point(text))),
    state(name, text) {
      const datum = lookup.scan(name).at(-1)?.thing;
      return datum?.owner === undefined ? lookup.state(name, text) : lookup.datumState(datum.owner, datum.name, text);
    },
  };
}

/** `A1 keypad` and `A1.22` can be recorded. */
function channel(lookup: Lookup): (text: string) => Piece[] {
  return text => orElse(lookup.scan(text), () => lookup.point(text));
}

/** The branch `A1 keypad moved first` of a recording. */
export function movedFirst(lookup: Lookup): (text: string) => Piece[] {
  return text => (text.endsWith(' moved first') ? channel(lookup)(text.slice(0, -' moved first'.length)) : []);
}

function orElse(pieces: Piece[], other: () => Piece[]): Piece[] {
  return pieces.length > 0 ? pieces : other();
}
