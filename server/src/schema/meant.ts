import { closest } from '../base/closest.ts';
import type { Span } from '../base/span.ts';
import type { ShapeFix } from './problem.ts';
import type { MapShape, TextShape } from './shape.ts';

/** The key that was surely meant: another word for it, a slip of the pen, its beginning, or `rating:5 A` without a blank. */
export function meantKey(text: string, maps: readonly MapShape[]): string | undefined {
  const keys = new Set(maps.flatMap(map => [...map.keys.keys(), ...map.beginnings.keys()]));
  const beforeColon = text.slice(0, text.indexOf(':')).trim();
  if (keys.has(beforeColon)) return beforeColon;
  for (const map of maps) {
    for (const { key, otherWords } of map.keys.values()) {
      if (otherWords.includes(plain(text))) return key;
    }
  }
  return near(text, keys);
}

/** The value that was surely meant, in the same sense. */
export function meantValue(text: string, { values = [], otherWords }: TextShape): string | undefined {
  const names = values.map(({ value }) => value);
  return otherWords.get(text) ?? otherWords.get(plain(text)) ?? near(text, names);
}

/** A fix that writes what was meant; preferred where only case, blanks, hyphens or a missing blank behind a colon differ. */
export function writeInstead(meant: string, span: Span, text: string): ShapeFix {
  const bare = (name: string): string => plain(name).replaceAll(' ', '');
  return { title: `Write \`${meant}\``, span, text: meant, ...(bare(meant) === bare(text) && { preferred: true }) };
}

function plain(text: string): string {
  return text.toLowerCase().replace(/[\s_-]+/g, ' ');
}

/** A slip of the pen, two letters in the wrong order among them, or the beginning of a name. */
function near(text: string, names: Iterable<string>): string | undefined {
  return closest(text, names) ?? [...names].find(name => letters(name) === letters(text)) ?? begunBy(text, names);
}

function letters(text: string): string {
  return [...text.toLowerCase()].sort().join('');
}

/** The only name that begins so, from three letters on. */
function begunBy(text: string, names: Iterable<string>): string | undefined {
  if (text.length < 3) return undefined;
  const found = [...names].filter(name => name.startsWith(text.toLowerCase()));
  return found.length === 1 ? found[0] : undefined;
}
