import type { Ref } from '../../model/common.ts';
import { ownTests } from '../../model/part-tests.ts';
import type { Part, PartData } from '../../model/parts.ts';
import type { System } from '../../model/system.ts';
import { dataOf, lookupIn } from './lookup.ts';
import { declaration, inMeterPlace, inSettings, inTest, mentions, mentionsIn } from './mention.ts';
import type { Occurrence, ThingKind } from './thing.ts';

/** Every name in a system, its included files among them. */
export function namesInSystem(system: System): Occurrence[] {
  const lookup = lookupIn(system);
  const only = (thing: { only?: readonly Ref[] }) => mentionsIn(thing.only, lookup.variant);

  return [
    ...[...system.variantDecls.values()].map(named('variant')),
    ...[...system.conditions.values()].flatMap(condition => [
      named('condition')(condition),
      ...condition.states.map(state =>
        declaration({ kind: 'state', name: state.text, uri: condition.place.uri, owner: condition.id }, state),
      ),
      ...[...condition.needs.values()].flatMap(test => inTest(test, lookup)),
    ]),
    ...[...system.parts.values()].flatMap(part => [
      named('part')(part),
      ...only(part),
      ...dataOf(part).flatMap(data => [...declaredIn(part, data), ...mentionedIn(part, data)]),
    ]),
    ...[...system.connectors.values()].flatMap(connector => [
      named('connector')(connector),
      ...only(connector),
      ...connector.cavities.map(cavity =>
        declaration({ kind: 'cavity', name: cavity.text, uri: connector.place.uri, owner: connector.id }, cavity),
      ),
    ]),
    ...[...system.grounds.values()].flatMap(ground => [named('ground')(ground), ...only(ground)]),
    ...[...system.splices.values()].map(named('splice')),
    ...system.wires.flatMap(wire => [
      named('wire')(wire),
      ...only(wire),
      ...mentionsIn([wire.from, ...wire.through, wire.to].filter(isRef), lookup.point),
      ...mentionsIn(wire.beside, lookup.item),
    ]),
    ...[...system.specifications.values()].flatMap(specification => [
      named('specification')(specification),
      ...only(specification),
      ...inMeterPlace(specification.meter, lookup),
      ...inSettings(specification.set, lookup),
      ...mentionsIn([...specification.disconnect, ...specification.remove], lookup.item),
      ...[...specification.rows.values()].flatMap(row => [
        named('row', specification.id)(row),
        ...only(row),
        ...inSettings(row.set, lookup),
      ]),
    ]),
    ...system.faultNotes.flatMap(note => mentions({ text: note.id, place: note.place }, lookup.item)),
    ...system.allow.flatMap(allowance => mentionsIn(allowance.within, lookup.item)),
  ];

  function mentionedIn(part: Part, data: PartData): Occurrence[] {
    if (data.kind === 'switch')
      return data.contacts.flatMap(({ a, b, closed }) => [
        ...[a, b].flatMap(ref => mentions(ref, text => tail(lookup.point(`${part.id}.${text}`), part.id))),
        ...('test' in closed
          ? inTest(closed.test, lookup)
          : mentionsIn(closed.positions, text => lookup.state(part.id, text))),
      ]);
    const tests = ownTests(data).flatMap(test => inTest(test, lookup));
    if (data.kind === 'battery' || data.kind === 'supply')
      return [...tests, ...(data.volts?.cases ?? []).flatMap(one => inTest(one.when, lookup))];
    if ('ohms' in data && data.ohms && 'cases' in data.ohms)
      return [...tests, ...data.ohms.cases.flatMap(one => inTest(one.when, lookup))];
    if ('follows' in data) return mentions(data.follows, lookup.settable);
    if (data.kind !== 'module') return tests;
    const pin = (ref: Ref | undefined) => mentions(ref, text => tail(lookup.point(`${part.id}.${text}`), part.id));
    const known = { ...lookup, settable: moduleSettable(part.id), state: moduleState(part.id) };
    return [
      ...pin(data.ground),
      ...pin(data.powered?.pin),
      ...[...data.pins.values()].flatMap(one => [...pin(one.feed), ...only(one)]),
      ...[...data.scanData.values()].flatMap(one => [
        ...pin(one.from),
        ...mentions(one.follows, lookup.settable),
        ...only(one),
      ]),
      ...data.rules.flatMap(rule => [
        ...inTest(rule.when, known),
        ...inTest(rule.until, known),
        ...rule.outputs.flatMap(output => pin(output.pin)),
        ...only(rule),
      ]),
    ];
  }

  /** In the rules of a module its own scan data are named like conditions. */
  function moduleSettable(module: string) {
    return (text: string) => {
      const datum = lookup.datum(module, text);
      return datum.length > 0 ? datum : lookup.settable(text);
    };
  }

  function moduleState(module: string) {
    return (name: string, text: string) => {
      const found = lookup.datumState(module, name, text);
      return found.length > 0 ? found : lookup.state(name, text);
    };
  }
}

function declaredIn(part: Part, data: PartData): Occurrence[] {
  const { uri } = part.place;
  const one = (kind: ThingKind, owner: string) => (ref: Ref) => declaration({ kind, name: ref.text, uri, owner }, ref);
  const within = (kind: ThingKind, owner: string) => (thing: { id: string; place: Ref['place'] }) =>
    one(kind, owner)({ text: thing.id, place: thing.place });

  if (data.kind === 'switch') return data.positions.map(one('state', part.id));
  if (data.kind === 'coded switches') return [...data.buttons.values()].map(within('state', part.id));
  if (data.kind === 'item') return [...data.fails.values()].map(within('failure', part.id));
  if (data.kind !== 'module') return [];
  return [
    ...[...data.pins.values()].map(within('terminal', part.id)),
    ...[...data.scanData.values()].flatMap(datum => [
      within('scan datum', part.id)(datum),
      ...datum.states.map(state => one('state', `${part.id} ${datum.id}`)(state.name)),
    ]),
  ];
}

function named(kind: ThingKind, owner?: string) {
  return (thing: { id: string; place: Ref['place'] }): Occurrence =>
    declaration(
      { kind, name: thing.id, uri: thing.place.uri, ...(owner !== undefined && { owner }) },
      { text: thing.id, place: thing.place },
    );
}

/** Of `S1` and `1` only the terminal: in a contact it stands alone. */
function tail<T extends { thing: { owner?: string }; from: number; to: number }>(pieces: T[], owner: string): T[] {
  const by = owner.length + 1;
  return pieces
    .filter(piece => piece.thing.owner === owner)
    .map(piece => ({ ...piece, from: piece.from - by, to: piece.to - by }));
}

function isRef(ref: Ref | undefined): ref is Ref {
  return ref !== undefined;
}
