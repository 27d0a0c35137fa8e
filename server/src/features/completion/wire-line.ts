import type { Candidate, Word } from './candidate.ts';
import { namesOf } from './names.ts';
import type { Scene } from './scene.ts';
import type { Spot } from './spot.ts';

/** Inside the line of a wire: points first, then what is said about the wire. */
export function wireLineAt(spot: Spot, scene: Scene): Candidate[] {
  const { typed, replace, prefix } = spot;
  const separator = [...typed.matchAll(/ to | through |, */g)].at(-1);
  const from = separator ? separator.index + separator[0].length : 0;
  const piece = typed.slice(from);
  const start = replace.start + from;
  const cursor = replace.start + typed.length;
  const offer = (word: Word, insert = word.text): Candidate => ({
    label: word.text,
    kind: word.kind ?? 'name',
    ...(word.detail && { detail: word.detail }),
    insert: (typed === '' ? prefix : '') + insert,
    isSnippet: false,
    replace: { start, end: cursor },
  });

  if (!separator?.[0].startsWith(',')) {
    const isDone = namesOf('point', scene).some(({ text }) => text === piece.trim()) && piece.endsWith(' ');
    if (!isDone) return namesOf('point', scene).map(word => offer(word));
    const keywords = typed.includes(' to ') ? ['through'] : ['to'];
    return keywords.map(text => offer({ text, detail: 'next point', kind: 'value' }, `${piece}${text} `));
  }
  const beside = /^beside (.*)$/.exec(piece);
  const only = /^only (.*)$/.exec(piece);
  if (beside) return namesOf('wire', scene).map(word => offer(word, `beside ${word.text}`));
  if (only) return namesOf('variant', scene).map(word => offer(word, `only ${word.text}`));
  return about.map(word => offer(word));
}

const about: Word[] = [
  ...['0.5 mm²', '0.75 mm²', '1 mm²', '1.5 mm²', '2.5 mm²', '4 mm²', '6 mm²', '16 AWG', '18 AWG', '20 AWG'].map(
    text => ({
      text,
      detail: 'size',
      kind: 'value' as const,
    }),
  ),
  ...['black', 'red', 'yellow', 'green', 'blue', 'white', 'brown', 'orange', 'grey', 'violet', 'pink'].map(text => ({
    text,
    detail: 'colour',
    kind: 'value' as const,
  })),
  { text: 'solid', detail: 'one or a few thick wires', kind: 'value' },
  { text: 'stranded', detail: 'many fine wires, as when nothing is said', kind: 'value' },
  { text: 'only', detail: 'the variant that has it', kind: 'value' },
  { text: 'beside', detail: 'the wire that it runs next to', kind: 'value' },
];
