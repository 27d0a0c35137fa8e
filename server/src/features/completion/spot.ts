import type { FileView } from '../../analysis/view.ts';
import { shapeOf } from '../../schema/place.ts';
import type { Shape } from '../../schema/shape.ts';
import type { MapNode } from '../../syntax/tree.ts';
import type { Stretch } from '../project.ts';
import { isOtherOf, type Station, trailTo } from './trail.ts';

/** Something that could be written at the cursor. */
export interface Spot {
  readonly wants: 'key' | 'value';
  /** What may stand there: for a key the map that it goes into. */
  readonly shape: Shape;
  readonly trail: readonly Station[];
  /** The word under the cursor, which is replaced. */
  readonly replace: Stretch;
  /** The word as far as the cursor. */
  readonly typed: string;
  /** Inside brackets, where everything stays on one line. */
  readonly inBrackets: boolean;
  /** What must be written before it: a blank behind a colon, the dash of an item. */
  readonly prefix: string;
  /** For a key: the entries already there, and whether this one has its colon. */
  readonly map: MapNode;
  readonly hasColon: boolean;
  /** For a key: whole entries, name included, are described by the shape of the map itself. */
  readonly ownEntries: boolean;
}

type Where = Pick<Spot, 'trail' | 'replace' | 'typed' | 'inBrackets'>;

/** What could be written at the offset; several where the next line may begin a list or a map. Nothing inside a comment. */
export function spotsAt(view: FileView, offset: number): Spot[] {
  const { tree } = view;
  if (isInComment(tree.text, offset)) return [];
  const trail = trailTo(view, offset);
  const last = trail.at(-1);
  const holder = trail.at(-2);
  if (!last) return [];
  const { start, end } = tree.absolute(last.node.span);
  const upTo = (from: number, to = offset): Where => ({
    trail,
    replace: { start: from, end: Math.max(to, offset) },
    typed: tree.text.slice(from, offset),
    inBrackets: isInBrackets(view, trail),
  });
  const here = upTo(offset);

  if (last.entry && last.entry.key === last.node)
    return holder?.shape && holder.node.kind === 'map'
      ? [keySpot(holder.shape, holder, upTo(start, end), tree.text[end] === ':')]
      : [];
  if (!last.shape) return [];
  if (last.node.kind === 'map') return [inMap(view, last, last.node, here, offset)].flatMap(spot => spot ?? []);
  if (last.node.kind === 'list') {
    const items = last.shape.list?.items;
    const prefix = here.inBrackets ? '' : '- ';
    return items ? [valueSpot(items, here, prefix), ...keysOfItem(items, here, prefix)] : [];
  }
  if (last.node.kind === 'scalar') {
    const word = upTo(start, isOnOneLine(tree.text, start, end) ? end : offset);
    const isBelowKey = last.entry && !isOnOneLine(tree.text, tree.absolute(last.entry.key.span).end, start);
    if (isBelowKey && !last.node.quoted) return [keySpot(last.shape, last, word, false)];
    return [valueSpot(last.shape, word, ''), ...(last.index === undefined ? [] : keysOfItem(last.shape, word, ''))];
  }
  return inNothing(view, last, here, offset);
}

/** Behind `key:` or `-`, on the same line or below. */
function inNothing(view: FileView, last: Station, here: Where, offset: number): Spot[] {
  const { text } = view.tree;
  const shape = last.shape!;
  const isBelow = !last.entry || !isOnOneLine(text, view.tree.absolute(last.entry.key.span).end, offset);
  if (last.entry && isBelow)
    return [keySpot(shape, last, here, false), ...(shape.list ? [valueSpot(shape.list.items, here, '- ')] : [])];
  if (!last.entry && last.index === undefined) return [keySpot(shape, last, here, false)];
  const prefix = /[:-]/.test(text[offset - 1] ?? '') ? ' ' : '';
  return [valueSpot(shape, here, prefix), ...(last.index === undefined ? [] : keysOfItem(shape, here, prefix))];
}

function inMap(view: FileView, station: Station, map: MapNode, here: Where, offset: number): Spot | undefined {
  const shape = station.shape!;
  const open = here.inBrackets
    ? /[{,]\s*(?:"([^"]*)"|'([^']*)'|([^{}[\],:]+?))\s*:(\s*)$/.exec(view.tree.text.slice(0, offset))
    : null;
  if (!open) return keySpot(shape, station, here, false);
  const key = open[1] ?? open[2] ?? open[3];
  const value = shapeOf(shape, map, key);
  const entry = map.entries.find(one => one.key.text === key);
  if (!value || !entry) return undefined;
  const trail = [...here.trail, { node: entry.value, entry, shape: value, isOther: isOtherOf(shape, value) }];
  return valueSpot(value, { ...here, trail }, open[4] === '' ? ' ' : '');
}

function keySpot(shape: Shape, { node, isOther }: Station, where: Where, hasColon: boolean): Spot {
  const map: MapNode = node.kind === 'map' ? node : { kind: 'map', span: node.span, entries: [] };
  return { wants: 'key', shape, map, hasColon, prefix: '', ownEntries: !isOther, ...where };
}

function valueSpot(shape: Shape, where: Where, prefix: string): Spot {
  const nothing = { unit: { text: '' }, start: 0, end: 0 };
  const map: MapNode = { kind: 'map', span: nothing, entries: [] };
  return { wants: 'value', shape, prefix, map, hasColon: false, ownEntries: false, ...where };
}

/** An item of a list may begin with a key. */
function keysOfItem(items: Shape, where: Where, prefix: string): Spot[] {
  if (items.maps.length === 0 || where.inBrackets) return [];
  return [{ ...valueSpot(items, where, prefix), wants: 'key', ownEntries: true }];
}

function isInBrackets(view: FileView, trail: readonly Station[]): boolean {
  return trail.some(({ node }) => {
    const first = view.tree.text[view.tree.absolute(node.span).start];
    return (node.kind === 'map' || node.kind === 'list') && (first === '{' || first === '[');
  });
}

function isOnOneLine(text: string, start: number, end: number): boolean {
  return !/[\r\n]/.test(text.slice(start, end));
}

function isInComment(text: string, offset: number): boolean {
  const line = text
    .slice(0, offset)
    .split(/[\r\n]/)
    .at(-1)!;
  const bare = line.replace(/"(?:[^"\\]|\\.)*"|'[^']*'/g, quoted => `${' '.repeat(quoted.length - 1)}"`);
  return /(?:^|\s)#/.test(bare);
}
