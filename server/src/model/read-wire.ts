import { closest } from '../base/closest.ts';
import { parseColour } from '../base/colour.ts';
import { parseQuantity } from '../base/quantity/quantity.ts';
import { parseRanged } from '../base/quantity/ranged-text.ts';
import { parseWireSize } from '../base/quantity/wire-size.ts';
import type { Entry, ScalarNode } from '../syntax/tree.ts';
import type { Ref } from './common.ts';
import type { Reader } from './reader.ts';
import type { Wire } from './system.ts';

/** `S6.1 to A1.14 through X12/3, 0.75 mm², 2.4 m, yellow/black, beside W42, only relay-fed`. */
export function readWire(entry: Entry, reader: Reader): Wire {
  const declared = { id: entry.key.text, place: reader.place(entry.key.span), entry };
  const node = entry.value;
  if (node.kind !== 'scalar') return { ...declared, through: [], beside: [] };
  const [route = { text: '', start: 0 }, ...rest] = pieces(node.text);
  return { ...declared, ...readRoute(node, route, reader), ...readRest(node, rest, reader) };
}

interface Piece {
  readonly text: string;
  readonly start: number;
}

/** Pieces between commas; a comma between two digits is a decimal comma. */
function pieces(text: string): readonly Piece[] {
  const found: Piece[] = [];
  let start = 0;
  for (const part of text.split(/,(?!\d)|(?<!\d),/)) {
    found.push(trimmed({ text: part, start }));
    start += part.length + 1;
  }
  return found;
}

function trimmed({ text, start }: Piece): Piece {
  return { text: text.trim(), start: start + text.length - text.trimStart().length };
}

function refTo(node: ScalarNode, piece: Piece, reader: Reader): Ref {
  return { text: piece.text, place: reader.within(node, piece.start, piece.start + piece.text.length) };
}

/** Splits at a word that stands between blanks. */
function splitAt(piece: Piece, word: RegExp): readonly Piece[] {
  const found: Piece[] = [];
  let from = 0;
  for (const match of piece.text.matchAll(word)) {
    found.push(trimmed({ text: piece.text.slice(from, match.index), start: piece.start + from }));
    from = match.index + match[0].length;
  }
  found.push(trimmed({ text: piece.text.slice(from), start: piece.start + from }));
  return found;
}

function readRoute(node: ScalarNode, route: Piece, reader: Reader): Pick<Wire, 'from' | 'to' | 'through'> {
  const [ends, passed] = splitAt(route, / through /g);
  const [from, to] = splitAt(ends!, / to /g);
  if (!from?.text || !to?.text) {
    const place = reader.within(node, route.start, route.start + route.text.length);
    reader.report('unreadable-wire', place, `This wire does not say where it goes`, {
      detail: 'A wire line begins with its two ends: `S6.1 to A1.14`, then the cavities it passes.',
      help: 'Write it as `FROM to TO through CONNECTOR/CAVITY, size, length, colour`.',
    });
    return { through: [] };
  }
  const through = passed ? splitAt(passed, / and /g).filter(p => p.text !== '') : [];
  return {
    from: refTo(node, from, reader),
    to: refTo(node, to, reader),
    through: through.map(p => refTo(node, p, reader)),
  };
}

type Rest = Pick<Wire, 'size' | 'statedOhms' | 'lengthM' | 'strands' | 'colour' | 'only' | 'beside'>;

function readRest(node: ScalarNode, rest: readonly Piece[], reader: Reader): Rest {
  let found: Rest = { beside: [] };
  for (const piece of rest) {
    if (piece.text !== '') found = { ...found, ...readPiece(node, piece, reader) };
  }
  return found;
}

function readPiece(node: ScalarNode, piece: Piece, reader: Reader): Partial<Rest> {
  const { text, start } = piece;
  const [word] = text.split(' ', 1);
  if (word === 'only' || word === 'beside') {
    const names = splitAt({ text: text.slice(word.length), start: start + word.length }, / (?:or|and) /g);
    return { [word]: names.map(p => refTo(node, p, reader)) };
  }
  if (text === 'solid' || text === 'stranded') return { strands: text };
  if (/mm²|mm2|sq ?mm|awg/i.test(text)) {
    const { value, problem } = parseWireSize(text);
    if (problem) reader.quantityProblem(node, problem, start, text);
    return { size: value };
  }
  if (/^[\d.,]/.test(text)) {
    const resistance = /Ω|Ω|ohm/i.test(text);
    const { value, problem } = resistance ? parseRanged(text, 'resistance') : { ...parseQuantity(text, 'length') };
    if (problem) reader.quantityProblem(node, problem, start, text);
    if (value === undefined) return {};
    return 'nominal' in value ? { statedOhms: value } : { lengthM: value.value };
  }
  const colour = parseColour(text);
  if (colour.value !== undefined) return { colour: text };
  const place = reader.within(node, start, start + text.length);
  reader.report('unreadable-wire', place, `\`${text}\` is no part of a wire line`, {
    detail:
      'After the two ends come size, length, `solid` or `stranded`, colour, `beside WIRE` and `only VARIANT`, parted by commas.',
    help: colour.problem?.help ?? 'Correct the word, or leave it out.',
    fixes: colourFix(text, colour.problem?.suggestion, place),
  });
  return {};
}

function colourFix(text: string, suggestion: string | undefined, place: Ref['place']) {
  const word = suggestion ?? closest(text, ['only', 'beside', 'solid', 'stranded']);
  return word === undefined ? [] : [{ title: `Write \`${word}\``, edits: [{ place, text: word }], preferred: true }];
}
