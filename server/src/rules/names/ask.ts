import { closest } from '../../base/closest.ts';
import type { Finding } from '../../base/finding.ts';
import type { Place, Ref } from '../../base/place.ts';
import type { Test } from '../../model/common.ts';
import type { Module, ScanDatum } from '../../model/parts.ts';
import type { Specified } from '../../model/specified.ts';
import type { MeterPlace, Setting } from '../../model/step.ts';
import { name, named } from '../wording.ts';
import { faultNames, isFault } from './faults.ts';
import { findDatum, type KnownNames, modulesOf, terminalsOf } from './known.ts';
import { otherQuantity, wrongLimit, wrongNumber } from './numbers.ts';
import { unknownName } from './unknown.ts';

/** Asks for names of one system and gathers those that it does not have. */
export class Asker {
  readonly findings: Finding[] = [];
  readonly names: KnownNames;

  constructor(names: KnownNames) {
    this.names = names;
  }

  /** A part, wire, connector, ground or splice, or a point of one of them. */
  thing(ref: Ref | undefined): void {
    const { things, points } = this.names;
    if (!ref || things.has(ref.text) || points.has(ref.text)) return;
    this.say(ref, `Nothing is called ${name(ref.text)}`, {
      detail: 'No part, wire, connector, ground or splice of the system has this name.',
      among: things.keys(),
      otherwise: 'add it to the system file',
    });
  }

  /** A thing, or one of its faults: `hose-P1 chafed`, `W41 short to ground`. */
  fault(ref: Ref): void {
    const { things, points, system } = this.names;
    if (things.has(ref.text) || points.has(ref.text)) return;
    if (isFault(system, ref.text)) return;
    const owner = this.#ownerOf(ref.text);
    const known = faultNames(system);
    if (owner === undefined) {
      this.thing(
        head(
          ref,
          [...known].find(one => ref.text.endsWith(afterOwner(one))),
        ),
      );
      return;
    }
    const { data } = system.parts.get(owner) ?? {};
    const fault = ref.text.slice(owner.length + 1);
    const own = [...known].flatMap(one => (one.startsWith(`${owner} `) ? [one.slice(owner.length + 1)] : []));
    // What cannot be placed in the circuit has no faults yet, and a message of its own.
    if (own.length === 0 && data?.kind !== 'item') return;
    this.say(tail(ref, owner.length + 1), `${name(owner)} has no fault ${name(fault)}`, {
      among: own,
      amongAre: `The faults of ${name(owner)} are`,
      otherwise: data?.kind === 'item' ? 'add it under `fails`' : 'add it under `faults`, with the reason as `added`',
    });
  }

  /** A fault that the file adds: of something there is, and if it touches something else, of that as well. */
  addedFault(ref: Ref): void {
    const owner = this.#ownerOf(ref.text);
    if (owner === undefined) {
      this.fault(ref);
      return;
    }
    const touching = /^ short to (.+)$/.exec(ref.text.slice(owner.length))?.[1];
    if (touching === undefined || sharedNames.has(touching)) return;
    this.thing(tail(ref, ref.text.length - touching.length));
  }

  /** The thing or point that a fault's name begins with. */
  #ownerOf(fault: string): string | undefined {
    const { things, points } = this.names;
    for (let end = fault.length; end > 0; end = fault.lastIndexOf(' ', end - 1)) {
      const start = fault.slice(0, end);
      if (things.has(start) || points.has(start)) return start;
    }
    return undefined;
  }

  /** What can be unplugged or pulled out of its socket. */
  apart(ref: Ref): void {
    const thing = this.names.things.get(ref.text);
    if (!thing) {
      this.thing(ref);
      return;
    }
    if (thing.sort === 'part' || thing.sort === 'connector') return;
    const { parts, connectors } = this.names.system;
    this.say(ref, `${name(ref.text)} is a ${thing.sort}, and only plugs and parts come apart`, {
      among: [...connectors.keys(), ...parts.keys()],
      otherwise: 'name the connector or the part',
    });
  }

  clampedAround(ref: Ref | undefined): void {
    const thing = ref && this.names.things.get(ref.text);
    if (!ref || thing?.sort === 'wire' || thing?.sort === 'part') return;
    const wires = [...this.names.things.values()].filter(t => t.sort === 'wire').map(t => t.id);
    this.say(ref, `No wire is called ${name(ref.text)}`, {
      among: wires,
      otherwise: 'name the wire that the clamp goes around',
    });
  }

  point(ref: Ref | undefined): void {
    if (!ref || this.names.points.has(ref.text)) return;
    const { parts, connectors } = this.names.system;
    const split = splits(ref.text, '.').find(([owner]) => parts.has(owner));
    if (split) {
      const [owner, terminal] = split;
      if (this.#hasUnreadContact(owner)) return;
      this.say(tail(ref, owner.length + 1), `${name(owner)} has no terminal ${name(terminal)}`, {
        among: terminalsOf(parts.get(owner)!),
        amongAre: `The terminals of ${name(owner)} are`,
        otherwise: 'add it to the part',
      });
      return;
    }
    const cavity = splits(ref.text, '/').find(([owner]) => connectors.has(owner));
    if (cavity) {
      const [owner, text] = cavity;
      this.say(tail(ref, owner.length + 1), `${name(owner)} has no cavity ${name(text)}`, {
        among: connectors.get(owner)!.cavities.map(c => c.text),
        amongAre: `The cavities of ${name(owner)} are`,
        otherwise: 'add it under `cavities`',
      });
      return;
    }
    const thing = this.names.things.get(ref.text);
    if (thing) {
      this.wholeThing(ref, thing.sort);
      return;
    }
    this.say(ref, `There is no point ${name(ref.text)}`, {
      detail: 'A point is `PART.TERMINAL`, `CONNECTOR/CAVITY`, a ground or a splice of the system.',
      among: this.names.points,
      otherwise: 'add it to the system file',
    });
  }

  /** The contacts of a switch name its terminals; while one cannot be read, nobody knows which there are. */
  #hasUnreadContact(part: string): boolean {
    const { parts, problems } = this.names.system;
    const unit = parts.get(part)?.place.span.unit;
    return problems.some(({ rule, place }) => rule === 'unreadable-contact' && place.span.unit === unit);
  }

  /** A part where one of its terminals is wanted. */
  private wholeThing(ref: Ref, sort: string): void {
    const own = [...this.names.points].filter(p => p.startsWith(`${ref.text}.`) || p.startsWith(`${ref.text}/`));
    const fixes = own.slice(0, 4).map(p => ({ title: `Write \`${p}\``, edits: [{ place: ref.place, text: p }] }));
    this.findings.push({
      rule: 'unknown-name',
      place: ref.place,
      message: `${name(ref.text)} is a ${sort}, and a point is wanted here`,
      detail:
        own.length > 0
          ? `Its points are ${named(own, 8)}.`
          : 'A point is `PART.TERMINAL`, `CONNECTOR/CAVITY`, a ground or a splice.',
      help: 'Name the terminal or the cavity.',
      fixes,
    });
  }

  meterPlace({ red, black, around }: MeterPlace): void {
    this.point(red?.point);
    this.point(black?.point);
    this.clampedAround(around);
  }

  settings(settings: readonly Setting[]): void {
    for (const { name, state } of settings) {
      if (!this.#number(name.text, [state], wrongNumber)) this.state(name, [state]);
    }
  }

  /** In the rules of a module its own scan data are named like conditions. */
  test(test: Test | undefined, module?: Module): void {
    for (const { name, states } of (test ?? []).flat()) {
      const datum = module?.scanData.get(name.text);
      const followed = datum ? datum.follows?.text : name.text;
      if (followed !== undefined && this.#number(followed, states, wrongLimit)) continue;
      if (datum) this.oneOf(states, this.#statesOf(datum), name.text);
      else this.state(name, states, module?.scanData.keys());
    }
  }

  /** What scan data are decoded into, or the states of what they follow. */
  #statesOf({ states, follows }: ScanDatum): readonly string[] {
    const followed = follows && this.names.settable.get(follows.text);
    return followed?.states ?? states.map(({ name }) => name.text);
  }

  /** Whether there is a condition with a number of this name, whose values then are checked as such. */
  #number(condition: string, values: readonly Ref[], wrong: typeof wrongNumber): boolean {
    const number = this.names.system.conditions.get(condition)?.number;
    if (number) this.findings.push(...values.flatMap(value => wrong(value, condition, number) ?? []));
    return number !== undefined;
  }

  private state(setting: Ref, states: readonly Ref[], more: Iterable<string> = []): void {
    const { settable, system } = this.names;
    const known = settable.get(setting.text);
    if (known) {
      this.oneOf(states, known.states, setting.text);
      return;
    }
    const isPart = system.parts.has(setting.text);
    this.say(
      setting,
      isPart ? `${name(setting.text)} has no states to set` : `No condition is called ${name(setting.text)}`,
      {
        detail: isPart ? 'Only switches with positions and coded switches are set by their own name.' : undefined,
        among: [...settable.keys(), ...more],
        amongAre: isPart ? undefined : 'What can be set is',
        otherwise: isPart ? 'set a condition' : 'add it under `conditions` of the system file',
      },
    );
  }

  /** States of something; a condition with a number has none. */
  oneOf(
    states: readonly Ref[],
    known: readonly string[],
    owner: string,
    otherwise = 'add the state in the system file',
  ): void {
    if (known.length === 0) return;
    for (const state of states) {
      if (known.includes(state.text)) continue;
      this.say(state, `${name(owner)} has no state ${name(state.text)}`, {
        among: known,
        amongAre: `The states of ${name(owner)} are`,
        otherwise,
      });
    }
  }

  /** Scan data `A1 keypad`; gives its states where it is known. */
  datum(text: string, place: Place): readonly string[] | undefined {
    const { part, datum, rest } = findDatum(this.names.system, text);
    if (datum) return this.#statesOf(datum);
    const ref = { text, place };
    if (part && rest !== undefined) {
      const known = modulesOf(part).flatMap(m => [...m.scanData.keys()]);
      this.say(tail(ref, text.length - rest.length), `${name(part.id)} has no scan data ${name(rest)}`, {
        among: known,
        amongAre: `The scan data of ${name(part.id)} are`,
        otherwise: 'add it under `scan data` of the module',
      });
      return undefined;
    }
    const modules = [...this.names.system.parts.values()].filter(p => modulesOf(p).length > 0);
    const all = modules.flatMap(p => modulesOf(p).flatMap(m => [...m.scanData.keys()].map(d => `${p.id} ${d}`)));
    this.say(ref, `No module has scan data ${name(text)}`, {
      detail: 'Scan data are named by the module and the datum, as in `A1 keypad`.',
      among: all,
      amongAre: all.length > 0 ? 'Known are' : undefined,
      otherwise: 'add it under `scan data` of the module',
    });
    return undefined;
  }

  /** Limits of scan data are of the quantity that the datum shows. */
  datumLimits(text: string, { limit, place }: Specified): void {
    const { datum } = findDatum(this.names.system, text);
    const followed = datum?.follows && this.names.system.conditions.get(datum.follows.text)?.number;
    const shown = followed?.dimension ?? (datum?.shows === 'voltage' ? 'voltage' : undefined);
    if (limit && shown && limit.dimension !== shown) this.findings.push(otherQuantity(text, shown, limit, place));
  }

  /** What can be recorded: scan data or a point. */
  channel(ref: Ref): void {
    if (this.names.points.has(ref.text) || this.names.things.has(ref.text)) return;
    if (!ref.text.includes(' ') && /[./]/.test(ref.text)) this.point(ref);
    else this.datum(ref.text, ref.place);
  }

  specification(ref: Ref | undefined): void {
    if (!ref) return;
    const { specifications } = this.names.system;
    const split = splits(ref.text, '/').find(([owner]) => specifications.has(owner));
    if (!split && !specifications.has(ref.text)) {
      const rows = [...specifications.values()].flatMap(s => [...s.rows.keys()].map(row => `${s.id}/${row}`));
      this.say(ref, `No specification is called ${name(ref.text)}`, {
        among: closest(ref.text, specifications.keys()) && !ref.text.includes('/') ? specifications.keys() : rows,
        otherwise: 'add it under `specifications` of the system file',
      });
      return;
    }
    const [owner, row] = split ?? [ref.text, ''];
    const { rows } = specifications.get(owner)!;
    if (rows.has(row)) return;
    const message = row ? `${name(owner)} has no row ${name(row)}` : `${name(owner)} is a table; name one of its rows`;
    const at = row ? tail(ref, owner.length + 1) : ref;
    const among = [...rows.keys()].map(r => (row ? r : `${owner}/${r}`));
    this.say(at, message, { among, amongAre: 'Its rows are', otherwise: row ? 'add the row' : 'add `/` and the row' });
  }

  variants(refs: readonly Ref[], declared: readonly string[]): void {
    for (const ref of refs) {
      if (declared.includes(ref.text)) continue;
      this.say(ref, `No variant is called ${name(ref.text)}`, {
        among: declared,
        amongAre: 'The variants are',
        otherwise: 'add it under `variants` of the system file',
      });
    }
  }

  say(
    ref: Ref,
    message: string,
    rest: { detail?: string; among: Iterable<string>; amongAre?: string; otherwise: string },
  ): void {
    this.findings.push(unknownName({ ref, message, ...rest, among: [...rest.among] }));
  }
}

/** What a wire may touch that is no thing of the file. */
const sharedNames: ReadonlySet<string> = new Set(['ground', 'negative', 'supply']);

/** The end of a name with its own place, where the text stands as written. */
function tail({ text, place }: Ref, from: number): Ref {
  const { span } = place;
  const rest = text.slice(from);
  const isWritten = span.unit.text.slice(span.start, span.end).endsWith(text);
  if (!isWritten) return { text: rest, place };
  return { text: rest, place: { ...place, span: { ...span, start: span.end - rest.length } } };
}

/** The beginning of a fault's name, before what another fault is called as well. */
function head({ text, place }: Ref, like: string | undefined): Ref {
  const length = like === undefined ? text.length : text.length - afterOwner(like).length;
  const { span } = place;
  const isWritten = span.unit.text.slice(span.start, span.end).startsWith(text);
  return {
    text: text.slice(0, length),
    place: isWritten ? { ...place, span: { ...span, end: span.start + length } } : place,
  };
}

/** ` short to ground` of `W41 short to ground`. */
function afterOwner(fault: string): string {
  return fault.includes(' ') ? fault.slice(fault.indexOf(' ')) : fault;
}

/** Names may hold the mark, so every split is tried, the longest owner first. */
function splits(text: string, mark: string): readonly (readonly [string, string])[] {
  const found: [string, string][] = [];
  for (let at = text.lastIndexOf(mark); at > 0; at = text.lastIndexOf(mark, at - 1)) {
    found.push([text.slice(0, at), text.slice(at + 1)]);
  }
  return found;
}
