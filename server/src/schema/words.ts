import type { Shape } from './shape.ts';

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
  const quoted = names.slice(0, most).map(name => `\`${name}\``);
  if (names.length > most) return `${quoted.join(', ')} or another`;
  return quoted.length < 2 ? quoted.join('') : `${quoted.slice(0, -1).join(', ')} or ${quoted.at(-1)}`;
}

/** What a place takes, in words: `text or a list`. */
export function taken(shape: Shape): string {
  const kinds = [shape.text && 'text', shape.list && 'a list', shape.maps.length > 0 && 'keys with values'].filter(
    Boolean,
  );
  return kinds.length < 3 ? kinds.join(' or ') : `${kinds.slice(0, -1).join(', ')} or ${kinds.at(-1)}`;
}

export const nodeWords = { scalar: 'text', list: 'a list', map: 'keys with values', empty: 'nothing' } as const;

/** An example as it would stand in a file, on one line. */
export function written(example: unknown): string {
  if (Array.isArray(example)) return `[${example.map(written).join(', ')}]`;
  if (typeof example === 'object' && example !== null) {
    return `{ ${Object.entries(example)
      .map(([key, value]) => `${key}: ${written(value)}`)
      .join(', ')} }`;
  }
  return String(example);
}
