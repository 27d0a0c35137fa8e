import { ownStates, type Part } from '../../model/parts.ts';
import type { System } from '../../model/system.ts';
import type { Thing, ThingKind } from './thing.ts';

/** A stretch of a written name and the thing that it stands for. */
export interface Piece {
  readonly thing: Thing;
  readonly from: number;
  readonly to: number;
}

/** What the names of one system stand for. Every question answers with the pieces of the text that were understood. */
export interface Lookup {
  readonly system: System;
  /** `A1.14`, `X12/3`, `GND-4`. */
  point(text: string): Piece[];
  /** Whatever can be inspected, mended or taken apart: a part, wire, connector, point, or one of them with its fault. */
  item(text: string): Piece[];
  /** A condition, or a part that is set by its own name. */
  settable(text: string): Piece[];
  state(settable: string, text: string): Piece[];
  variant(text: string): Piece[];
  /** `A1 keypad`. */
  scan(text: string): Piece[];
  datum(module: string, text: string): Piece[];
  datumState(module: string, datum: string, text: string): Piece[];
  /** `keypad-ohms/on`. */
  specification(text: string): Piece[];
}

export function lookupIn(system: System): Lookup {
  const whole = (kind: ThingKind, text: string, uri: string | undefined, owner?: string): Piece[] =>
    uri === undefined ? [] : [piece({ kind, name: text, uri, ...(owner && { owner }) }, 0, text.length)];

  const named = (text: string): Piece[] => {
    const { parts, connectors, grounds, splices, wires } = system;
    if (parts.has(text)) return whole('part', text, parts.get(text)?.place.uri);
    if (connectors.has(text)) return whole('connector', text, connectors.get(text)?.place.uri);
    if (grounds.has(text)) return whole('ground', text, grounds.get(text)?.place.uri);
    if (splices.has(text)) return whole('splice', text, splices.get(text)?.place.uri);
    return whole('wire', text, wires.find(wire => wire.id === text)?.place.uri);
  };

  const point = (text: string): Piece[] => {
    const direct = named(text);
    if (direct.length > 0 && direct[0].thing.kind !== 'wire') return direct;
    return (
      firstSplit(text, '.', (owner, rest) => {
        const part = system.parts.get(owner);
        return part && [...named(owner), ...shifted(terminalOf(part, rest), owner.length + 1)];
      }) ??
      firstSplit(text, '/', (owner, rest) => {
        const connector = system.connectors.get(owner);
        if (!connector) return undefined;
        const known = connector.cavities.some(cavity => cavity.text === rest);
        return [
          ...named(owner),
          ...shifted(known ? whole('cavity', rest, connector.place.uri, owner) : [], owner.length + 1),
        ];
      }) ??
      []
    );
  };

  const settable = (text: string): Piece[] => {
    const condition = system.conditions.get(text);
    return condition ? whole('condition', text, condition.place.uri) : whole('part', text, partOf(text)?.place.uri);
  };

  const state = (name: string, text: string): Piece[] => {
    const condition = system.conditions.get(name);
    const part = partOf(name);
    if (condition?.states.some(known => known.text === text)) return whole('state', text, condition.place.uri, name);
    if (part && statesOf(part).includes(text)) return whole('state', text, part.place.uri, name);
    return [];
  };

  const partOf = (name: string) => system.parts.get(name);

  const datum = (module: string, text: string): Piece[] => {
    const part = partOf(module);
    return part && dataOf(part).some(data => data.kind === 'module' && data.scanData.has(text))
      ? whole('scan datum', text, part.place.uri, module)
      : [];
  };

  return {
    system,
    point,
    settable,
    state,
    datum,
    variant: text => whole('variant', text, system.variantDecls.get(text)?.place.uri),
    item(text) {
      const direct = named(text);
      if (direct.length > 0) return direct;
      const asPoint = point(text);
      if (asPoint.length > 0) return asPoint;
      return (
        firstSplit(text, ' ', (owner, rest) => {
          const found = named(owner).length > 0 ? named(owner) : point(owner);
          const more = [...failureOf(owner, rest), ...alsoIn(rest)];
          return found.length > 0 ? [...found, ...shifted(more, owner.length + 1)] : undefined;
        }) ?? []
      );
    },
    scan: text =>
      firstSplit(text, ' ', (module, rest) => {
        const found = datum(module, rest);
        return found.length > 0 ? [...named(module), ...shifted(found, module.length + 1)] : undefined;
      }) ?? [],
    datumState(module, name, text) {
      const part = partOf(module);
      const known = part && dataOf(part).flatMap(data => (data.kind === 'module' ? [data.scanData.get(name)] : []));
      return known?.some(found => found?.states.some(one => one.name.text === text))
        ? whole('state', text, part?.place.uri, `${module} ${name}`)
        : [];
    },
    specification: text =>
      system.specifications.has(text)
        ? whole('specification', text, system.specifications.get(text)?.place.uri)
        : (firstSplit(text, '/', (owner, rest) => {
            const found = system.specifications.get(owner);
            if (!found) return undefined;
            const row = found.rows.has(rest) ? whole('row', rest, found.place.uri, owner) : [];
            return [...whole('specification', owner, found.place.uri), ...shifted(row, owner.length + 1)];
          }) ?? []),
  };

  function terminalOf(part: Part, terminal: string): Piece[] {
    const known = dataOf(part).some(
      data => data.terminals.some(t => t.text === terminal) || (data.kind === 'module' && data.pins.has(terminal)),
    );
    return known ? whole('terminal', terminal, part.place.uri, part.id) : [];
  }

  /** What a fault names besides its owner: `short to W58`, `open before X12/3`, `open at W41`. */
  function alsoIn(text: string): Piece[] {
    const found = [...text.matchAll(/(?:^| )(?:short to|before|after|at) (.+?)(?= before | after |$)/g)];
    return found.flatMap(({ index, 0: all, 1: name = '' }) => {
      const pieces = named(name).length > 0 ? named(name) : point(name);
      return shifted(pieces, index + all.length - name.length);
    });
  }

  function failureOf(owner: string, text: string): Piece[] {
    const part = partOf(owner);
    const known = part && dataOf(part).some(data => data.kind === 'item' && data.fails.has(text));
    return known ? whole('failure', text, part.place.uri, owner) : [];
  }
}

/** The part as it stands and as each variant changes it. */
export function dataOf(part: Part) {
  return [part.data, ...part.byVariant.values()];
}

function statesOf(part: Part): string[] {
  return dataOf(part).flatMap(data => [...ownStates(data)]);
}

function piece(thing: Thing, from: number, to: number): Piece {
  return { thing, from, to };
}

function shifted(pieces: Piece[], by: number): Piece[] {
  return pieces.map(({ thing, from, to }) => piece(thing, from + by, to + by));
}

/** Names may hold the mark that parts them from what follows, so every split is tried, the longest owner first. */
function firstSplit<T>(text: string, mark: string, ask: (owner: string, rest: string) => T | undefined): T | undefined {
  for (let at = text.lastIndexOf(mark); at > 0; at = text.lastIndexOf(mark, at - 1)) {
    const answer = ask(text.slice(0, at), text.slice(at + mark.length));
    if (answer !== undefined) return answer;
  }
  return undefined;
}
