import { distance } from 'fastest-levenshtein';

/**
 * The name that was surely meant by `text`: equal but for case, blanks, hyphens and underscores, or at most a third of its
 * characters away. Nothing where no name is that near.
 */
export function closest(text: string, names: Iterable<string>): string | undefined {
  let best: string | undefined;
  let bestDistance = Math.max(1, Math.floor(text.length / 3)) + 1;
  const plainText = plain(text);
  for (const name of names) {
    if (name === text) continue;
    const apart = plain(name) === plainText ? 0 : distance(text.toLowerCase(), name.toLowerCase());
    if (apart < bestDistance) {
      best = name;
      bestDistance = apart;
    }
  }
  return best;
}

function plain(name: string): string {
  return name.toLowerCase().replace(/[\s_-]+/g, '');
}
