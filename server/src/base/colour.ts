import { closest } from './closest.ts';
import { type Parsed, parsing, quote } from './quantity/problem.ts';

/** The colour of a wire's insulation: the ground colour first, then its stripes. */
export interface Colour {
  /** English colour words: `yellow`, `black`. */
  readonly names: readonly string[];
  /** Letter codes after IEC 60757: `YE/BK`. Colours that the standard does not know keep their word. */
  readonly code: string;
}

/** Reads `black`, `yellow/black`, `light blue/red`, `YE/BK`, `GNYE`. */
export function parseColour(text: string): Parsed<Colour> {
  return parsing(text, readColour);
}

function readColour(text: string): Parsed<Colour> {
  const names: string[] = [];
  let at = 0;
  for (const piece of text.split('/')) {
    const found = namesOf(piece.trim());
    if (!found) return unknownColour(text, piece, at);
    names.push(...found);
    at += piece.length + 1;
  }
  if (names.length > 3) return tooMany(text);
  return { value: { names, code: names.map(name => codes.get(name) ?? name).join('/') } };
}

/** IEC 60757:1983, code for designation of colours (from memory). */
const codes: ReadonlyMap<string, string> = new Map([
  ['black', 'BK'],
  ['brown', 'BN'],
  ['red', 'RD'],
  ['orange', 'OG'],
  ['yellow', 'YE'],
  ['green', 'GN'],
  ['blue', 'BU'],
  ['violet', 'VT'],
  ['grey', 'GY'],
  ['white', 'WH'],
  ['pink', 'PK'],
  ['gold', 'GD'],
  ['turquoise', 'TQ'],
  ['silver', 'SR'],
]);

/** Colours on wiring diagrams that the standard has no letters for. Common practice, no source. */
const furtherColours = ['tan', 'beige', 'clear', 'natural'];
const otherSpellings: ReadonlyMap<string, string> = new Map([
  ['gray', 'grey'],
  ['purple', 'violet'],
]);
const wordByCode: ReadonlyMap<string, string> = new Map([...codes].map(([word, code]) => [code, word]));
const colourWords = [...codes.keys(), ...furtherColours, ...otherSpellings.keys()];

/** One colour, or the two of `GNYE`: a run of letter codes. */
function namesOf(piece: string): string[] | undefined {
  const pairs = piece.length > 0 && piece.length % 2 === 0 ? piece.toUpperCase().match(/../gs) : null;
  const coded = pairs?.map(pair => wordByCode.get(pair));
  if (coded?.every(word => word !== undefined)) return coded;
  const [, shade = '', word = ''] = /^(?:(light|dark)[ -])?(\p{L}+)$/u.exec(piece.toLowerCase()) ?? [];
  if (!colourWords.includes(word)) return undefined;
  const name = otherSpellings.get(word) ?? word;
  return [shade ? `${shade} ${name}` : name];
}

function unknownColour(text: string, piece: string, at: number): Parsed<Colour> {
  const written = piece.trim();
  const start = at + piece.indexOf(written);
  const end = start + written.length;
  const meant = correction(written);
  const whole = meant && corrected(text);
  return {
    problem: {
      id: 'unknown-colour',
      message: written === '' ? 'A colour is missing here' : `${quote(written)} is not a colour of a wire`,
      detail: 'A colour is a plain word or a code of IEC 60757; the stripe follows after `/`: `yellow/black`, `YE/BK`.',
      help: meant
        ? `Did you mean \`${whole ?? meant}\`?`
        : `Write colours such as ${['black', 'grey', 'violet'].join(', ')}, or codes such as BK, GY, VT.`,
      start: written === '' ? 0 : start,
      end: written === '' ? text.length : end,
      suggestion: whole,
    },
  };
}

/** Every colour of the text as it was meant; nothing where one of them is no colour that could be guessed. */
function corrected(text: string): string | undefined {
  const pieces = text.split('/').map(piece => (namesOf(piece.trim()) ? piece.trim() : correction(piece.trim())));
  const whole = pieces.join('/');
  return pieces.includes(undefined) || 'problem' in readColour(whole) ? undefined : whole;
}

/** `yellow-black` and `yellow and black` are two colours; any other slip is one word that is nearly a colour. */
function correction(written: string): string | undefined {
  const parts = written.split(/\s*(?:[-,+\\|]|\band\b|\bwith\b|\s)\s*/i).filter(part => part !== '');
  if (parts.length > 1 && parts.length <= 3 && parts.every(part => namesOf(part))) return parts.join('/');
  return written.length > 2 ? closest(written.toLowerCase(), colourWords) : undefined;
}

function tooMany(text: string): Parsed<Colour> {
  return {
    problem: {
      id: 'unknown-colour',
      message: `${quote(text)} has more than three colours`,
      help: 'Write the ground colour and at most two stripes, for example `yellow/black`.',
      start: 0,
      end: text.length,
    },
  };
}
