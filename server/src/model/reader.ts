import type { Finding, Fix } from '../base/finding.ts';
import type { Place, Ref } from '../base/place.ts';
import { parseDerived } from '../base/quantity/derived-limit.ts';
import type { Dimension } from '../base/quantity/dimension.ts';
import { type Limit, parseLimit } from '../base/quantity/limit.ts';
import type { Parsed, QuantityProblem } from '../base/quantity/problem.ts';
import { parseQuantity } from '../base/quantity/quantity.ts';
import { parseRanged } from '../base/quantity/ranged-text.ts';
import type { Ranged } from '../base/ranged.ts';
import type { Span } from '../base/span.ts';
import type { Entry, MapNode, Node, ScalarNode } from '../syntax/tree.ts';
import type { Specified } from './specified.ts';

/** What was read from one entry, with the problems met on the way. */
export interface Read<T> {
  readonly value: T;
  readonly problems: readonly Finding[];
}

/**
 * Reads scalars of one file and gathers what cannot be read. A node of the wrong shape is passed over in silence:
 * the schema stage has already said so.
 */
export class Reader {
  readonly problems: Finding[] = [];
  readonly uri: string;

  constructor(uri: string) {
    this.uri = uri;
  }

  place(span: Span): Place {
    return { uri: this.uri, span };
  }

  ref(node: ScalarNode): Ref {
    return { text: node.text, place: this.place(node.span) };
  }

  /** A scalar's text, or nothing. */
  text(node: Node | undefined): Ref | undefined {
    return node?.kind === 'scalar' ? this.ref(node) : undefined;
  }

  /** One name or a list of names. */
  refs(node: Node | undefined): readonly Ref[] {
    if (node?.kind === 'scalar') return [this.ref(node)];
    if (node?.kind !== 'list') return [];
    return node.items.flatMap(item => (item.kind === 'scalar' ? [this.ref(item)] : []));
  }

  /** The place of a stretch of a scalar's text; the whole scalar where escapes or folding moved the characters. */
  within(node: ScalarNode, start: number, end: number): Place {
    const { unit, start: from, end: to } = node.span;
    const quote = node.quoted ? 1 : 0;
    if (to - from !== node.text.length + 2 * quote) return this.place(node.span);
    return this.place({ unit, start: from + quote + start, end: from + quote + Math.max(end, start) });
  }

  /** Without a dimension, the unit decides what is meant. */
  quantity(node: Node | undefined, dimension?: Dimension): number | undefined {
    return this.parsed(node, text => parseQuantity(text, dimension))?.value;
  }

  ranged(node: Node | undefined, dimension: Dimension): Ranged | undefined {
    return this.parsed(node, text => parseRanged(text, dimension));
  }

  limit(node: Node | undefined, dimension?: Dimension): Limit | undefined {
    return this.parsed(node, text => parseLimit(text, dimension));
  }

  /** Limits as they are typed, or left to the circuit. */
  specified(node: Node | undefined, dimension?: Dimension): Specified | undefined {
    if (node?.kind !== 'scalar') return undefined;
    const place = this.place(node.span);
    const derived = parseDerived(node.text);
    if (!derived) {
      const limit = this.limit(node, dimension);
      return limit && { limit, place };
    }
    const marginRatio = this.parsed(node, () => derived);
    return marginRatio === undefined ? undefined : { marginRatio, place };
  }

  /** Runs a parser of the quantity room over a scalar and turns its problem into a finding. */
  parsed<T>(node: Node | undefined, parse: (text: string) => Parsed<T>): T | undefined {
    if (node?.kind !== 'scalar') return undefined;
    const { value, problem } = parse(node.text);
    if (problem) this.quantityProblem(node, problem);
    return value;
  }

  quantityProblem(node: ScalarNode, problem: QuantityProblem, start = 0, text = node.text): void {
    const place = this.within(node, start + problem.start, start + problem.end);
    const fixes: Fix[] = [];
    if (problem.suggestion !== undefined) {
      const whole = this.within(node, start, start + text.length);
      const edits = [{ place: whole, text: problem.suggestion }];
      fixes.push({ title: `Write \`${problem.suggestion}\``, edits, preferred: problem.certain });
    }
    const { id: rule, message, detail, help } = problem;
    this.problems.push({ rule, place, message, detail, help, fixes });
  }

  report(rule: string, place: Place, message: string, more: Partial<Finding> = {}): void {
    this.problems.push({ rule, place, message, ...more });
  }
}

/** The keys of a map, where an overlay for one variant may replace single ones. */
export class Fields {
  readonly map: MapNode | undefined;
  readonly overlay: MapNode | undefined;

  constructor(node: Node | undefined, overlay?: Node) {
    this.map = node?.kind === 'map' ? node : undefined;
    this.overlay = overlay?.kind === 'map' ? overlay : undefined;
  }

  entry(key: string): Entry | undefined {
    return find(this.overlay, key) ?? find(this.map, key);
  }

  get(key: string): Node | undefined {
    return this.entry(key)?.value;
  }

  /** The first of the keys that is there. */
  firstOf<K extends string>(keys: readonly K[]): { key: K; entry: Entry } | undefined {
    for (const source of [this.overlay, this.map]) {
      for (const entry of source?.entries ?? []) {
        const key = keys.find(k => k === entry.key.text);
        if (key !== undefined) return { key, entry };
      }
    }
    return undefined;
  }
}

/** Entries of a map, or none. */
export function entriesOf(node: Node | undefined): readonly Entry[] {
  return node?.kind === 'map' ? node.entries : [];
}

/** Overlays by variant of an entry that may differ by variant. */
export function overlaysOf(node: Node | undefined): readonly Entry[] {
  return entriesOf(new Fields(node).get('by variant'));
}

/** Reads an entry once for as long as its text stays the same: entries keep their identity across edits elsewhere. */
export function remembered<T>(read: (entry: Entry, reader: Reader) => T): (entry: Entry, uri: string) => Read<T> {
  const known = new WeakMap<Entry, Read<T> & { uri: string }>();
  return (entry, uri) => {
    const before = known.get(entry);
    if (before?.uri === uri) return before;
    const reader = new Reader(uri);
    const fresh = { value: read(entry, reader), problems: distinct(reader.problems), uri };
    known.set(entry, fresh);
    return fresh;
  };
}

/** Reading an overlay meets the keys that it does not replace again; each of their problems is told once. */
function distinct(problems: readonly Finding[]): readonly Finding[] {
  const seen = new Set<string>();
  return problems.filter(p => {
    const key = `${p.rule}:${p.place.span.start}:${p.place.span.end}`;
    return !seen.has(key) && seen.add(key);
  });
}

function find(map: MapNode | undefined, key: string): Entry | undefined {
  return map?.entries.find(e => e.key.text === key);
}
