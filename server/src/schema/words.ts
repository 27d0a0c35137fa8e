import type { MapShape, Shape } from './shape.ts';

/** A name of the author's in backticks, short enough for the first line of a message. */
export function quote(name: string): string {
  const line = name.replace(/\s+/g, ' ').trim().replaceAll('`', "'");
  return `\`${line.length > 32 ? `${line.slice(0, 31)}…` : line}\``;
}

/** `an` before a vowel, also before an acronym that is spoken with one: an LED. */
export function article(noun: string): string {
  const bare = noun.replace('`', '');
  return /^[aeio]/i.test(bare) || /^[FHLMNRSX][A-Z]/.test(bare) ? `an ${noun}` : `a ${noun}`;
}

/** `a`, `b` or `c`; of a long row only the beginning. */
export function oneOf(names: readonly string[], most = 12): string {
  const quoted = names.map(name => `\`${name}\``);
  return either(quoted.length > most ? [...quoted.slice(0, most), 'another'] : quoted);
}

/** What a map is called in a sentence: what was chosen, else the place as a whole. */
export function nounOf(shape: Shape, maps: readonly MapShape[]): string {
  return (maps.length === 1 && maps[0]!.title) || shape.title || 'map';
}

/** What a place takes, in words: `text or a list`. */
export function taken({ text, list, maps }: Shape): string {
  const map = takesOneLine(maps) ? 'a name with its text' : 'keys with values';
  return either([...(text ? ['text'] : []), ...(list ? ['a list'] : []), ...(maps.length > 0 ? [map] : [])]);
}

export const nodeWords = { scalar: 'text', list: 'a list', map: 'keys with values' } as const;

/** Whether the place takes one name with its text, as a wire does. */
export function takesOneLine(maps: readonly MapShape[]): boolean {
  return maps[0]?.max === 1 && maps[0].others !== undefined;
}

/** An example as it would stand in a file, on one line; a text that is cut by a comma inside brackets stands in quotes there. */
export function written(example: unknown, inBrackets = false): string {
  if (Array.isArray(example)) return `[${example.map(item => written(item, true)).join(', ')}]`;
  if (typeof example === 'object' && example !== null) return `{ ${entriesOf(example, true).join(', ')} }`;
  const text = String(example);
  return inBrackets && /[,[\]{}]/.test(text) ? `"${text}"` : text;
}

/** A map with one entry as a line of its own, without braces. */
export function writtenLine(example: object): string {
  return entriesOf(example, false).join(', ');
}

function entriesOf(example: object, inBrackets: boolean): string[] {
  return Object.entries(example).map(([key, value]) => `${key}: ${written(value, inBrackets)}`);
}

export function upper(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

export function either(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;
}
