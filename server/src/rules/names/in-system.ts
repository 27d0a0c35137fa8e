import type { SystemView } from '../../analysis/view.ts';
import type { Finding } from '../../base/finding.ts';
import type { Ref } from '../../base/place.ts';
import type { Declared, Limited, Value } from '../../model/common.ts';
import { ownTests } from '../../model/part-tests.ts';
import type { Module, Part, PartData, Relay } from '../../model/parts.ts';
import { entriesOf, Fields, overlaysOf } from '../../model/reader.ts';
import { name } from '../wording.ts';
import { Asker } from './ask.ts';
import { knownNames, variantsOf } from './known.ts';

/** Names in a system file that neither it nor the files that it includes declare. */
export function unknownInSystem({ system, uri }: SystemView): readonly Finding[] {
  const names = knownNames(system);
  const asker = new Asker(names);
  const own = <T extends Declared>(all: Iterable<T>) => [...all].filter(thing => thing.place.uri === uri);
  const limited = (thing: Declared & Limited) =>
    asker.variants([...(thing.only ?? []), ...overlayNames(thing)], system.variants);

  for (const condition of own(system.conditions.values())) {
    for (const test of condition.needs.values()) asker.test(test);
    asker.oneOf(
      needyStates(condition),
      condition.states.map(({ text }) => text),
      condition.id,
    );
  }
  for (const part of own(system.parts.values())) {
    limited(part);
    for (const data of variantsOf(part)) askPart(asker, part, data, system.variants);
  }
  for (const thing of [...own(system.connectors.values()), ...own(system.grounds.values())]) limited(thing);
  for (const wire of own(system.wires)) {
    limited(wire);
    for (const ref of [wire.from, ...wire.through, wire.to]) asker.point(ref);
    for (const ref of wire.beside) asker.thing(ref);
  }
  for (const table of own(system.specifications.values())) {
    limited(table);
    asker.meterPlace(table.meter);
    asker.settings(table.set);
    for (const ref of [...table.disconnect, ...table.remove]) asker.apart(ref);
    for (const row of table.rows.values()) {
      limited(row);
      asker.settings(row.set);
    }
  }
  for (const note of own(system.faultNotes)) {
    const ref = { text: note.id, place: note.place };
    if (note.added === undefined) asker.fault(ref);
    else asker.addedFault(ref);
  }
  for (const ref of system.allow.filter(a => a.rule.place.uri === uri).flatMap(a => a.within ?? [])) {
    if (!isDeclared(ref, names, system.specifications, system.conditions)) asker.thing(ref);
  }
  return asker.findings;
}

function isDeclared(ref: Ref, names: ReturnType<typeof knownNames>, ...maps: ReadonlyMap<string, unknown>[]): boolean {
  const { variantDecls } = names.system;
  return names.things.has(ref.text) || variantDecls.has(ref.text) || maps.some(m => m.has(ref.text));
}

/** The states of which `needs` says what they need. */
function needyStates({ entry, place }: Declared): readonly Ref[] {
  const needs = entriesOf(new Fields(entry.value).get('needs'));
  return needs.map(({ key }) => ({ text: key.text, place: { uri: place.uri, span: key.span } }));
}

function overlayNames({ entry, place }: Declared): readonly Ref[] {
  return overlaysOf(entry.value).map(o => ({ text: o.key.text, place: { uri: place.uri, span: o.key.span } }));
}

function askPart(asker: Asker, part: Part, data: PartData, variants: readonly string[]): void {
  for (const test of ownTests(data)) asker.test(test);
  switch (data.kind) {
    case 'battery':
    case 'supply':
      askValue(asker, data.volts);
      askValue(asker, data.internalOhms);
      return;
    case 'relay':
      askSuppression(asker, part, data);
      return;
    case 'switch':
      askSwitch(asker, part, data);
      return;
    case 'module':
      askModule(asker, part, data, variants);
      return;
    default:
      if ('ohms' in data && data.ohms && 'cases' in data.ohms) askValue(asker, data.ohms);
      if ('follows' in data && data.follows) askCondition(asker, data.follows);
  }
}

function askValue(asker: Asker, value: Value | undefined): void {
  for (const { when } of value?.cases ?? []) asker.test(when);
}

function askSuppression(asker: Asker, part: Part, { terminals, suppressionDiode }: PartData & Relay): void {
  const coil = terminals.slice(0, 2).map(t => t.text);
  const wrong = suppressionDiode?.find(ref => !coil.includes(ref.text));
  if (!wrong) return;
  asker.say(wrong, `${name(part.id)} has no coil terminal ${name(wrong.text)}`, {
    among: coil,
    amongAre: `The coil of ${name(part.id)} has the terminals`,
    otherwise: 'write the terminals of its anode and its cathode, as `86 to 85`',
  });
}

function askSwitch(asker: Asker, part: Part, data: PartData & { kind: 'switch' }): void {
  const positions = data.positions.map(p => p.text);
  for (const { closed } of data.contacts) {
    if ('test' in closed) asker.test(closed.test);
    else if (positions.length > 0) asker.oneOf(closed.positions, positions, part.id);
  }
}

function askModule(asker: Asker, part: Part, module: PartData & Module, variants: readonly string[]): void {
  const pin = (ref: Ref | undefined) => {
    if (!ref || module.pins.has(ref.text)) return;
    asker.say(ref, `${name(part.id)} has no pin ${name(ref.text)}`, {
      among: module.pins.keys(),
      amongAre: `The pins of ${name(part.id)} are`,
      otherwise: 'add it under `pins`',
    });
  };
  pin(module.ground);
  pin(module.powered?.pin);
  for (const { feed, only } of module.pins.values()) {
    pin(feed);
    asker.variants(only ?? [], variants);
  }
  for (const { from, follows, only } of module.scanData.values()) {
    pin(from);
    if (follows) askCondition(asker, follows);
    asker.variants(only ?? [], variants);
  }
  for (const { when, until, outputs, only } of module.rules) {
    asker.test(when, module);
    asker.test(until, module);
    for (const output of outputs) pin(output.pin);
    asker.variants(only ?? [], variants);
  }
}

function askCondition(asker: Asker, ref: Ref): void {
  const { conditions } = asker.names.system;
  if (conditions.has(ref.text)) return;
  asker.say(ref, `No condition is called ${name(ref.text)}`, {
    among: conditions.keys(),
    amongAre: 'The conditions are',
    otherwise: 'add it under `conditions`',
  });
}
