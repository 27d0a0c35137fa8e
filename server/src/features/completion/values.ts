import type { FileView } from '../../analysis/view.ts';
import type { TextShape } from '../../schema/shape.ts';
import type { Project } from '../project.ts';
import { amountsAt } from './amounts.ts';
import type { Candidate, Word } from './candidate.ts';
import { circuitRange } from './circuit-range.ts';
import { onOneLine } from './keys.ts';
import { namesOf } from './names.ts';
import { remarksAt } from './remarks.ts';
import { sceneAt } from './scene.ts';
import type { Spot } from './spot.ts';
import { wireLineAt } from './wire-line.ts';

/** What can stand behind a colon or in a list: words, names, quantities, or the beginning of a list or map. */
export function valuesAt(project: Project, view: FileView, spot: Spot): Candidate[] {
  const { shape, replace, prefix, typed, inBrackets } = spot;
  const scene = sceneAt(project, view, spot.trail);
  const { text } = shape;
  if (text?.line === 'wire') return wireLineAt(spot, scene);
  const remarks = text?.names.includes('point') ? remarksAt(spot, scene) : undefined;
  if (remarks) return remarks;

  const words = text ? wordsOf(text).concat(text.names.flatMap(kind => namesOf(kind, scene))) : [];
  const simple = words.map(
    ({ text: label, detail, kind = 'name', documentation }): Candidate => ({
      label,
      kind,
      ...(detail && { detail }),
      insert: prefix + label,
      isSnippet: false,
      replace,
      ...(documentation && { documentation }),
    }),
  );
  const amounts = text?.quantity ? [...amountsAt(text.quantity, spot), ...circuitRange(spot, scene)] : [];
  return [...simple, ...amounts, ...(typed === '' ? beginnings() : [])];

  /** A list or a map that is begun for the author. */
  function beginnings(): Candidate[] {
    const snippet = onOneLine(shape.snippet ?? (shape.list?.items.text ? '[$1]' : '$1'), inBrackets);
    if (!(shape.list || shape.maps.length > 0) || snippet === '$1' || prefix === '- ') return [];
    return [
      {
        label: snippet.startsWith('[') ? '[…]' : '{…}',
        kind: 'template',
        detail: shape.title || 'several',
        insert: snippet.startsWith('\n') ? snippet : prefix + snippet,
        isSnippet: true,
        replace,
        documentation: () => shape.description,
      },
    ];
  }
}

function wordsOf({ values = [], words, format }: TextShape): Word[] {
  return [
    ...(format ? [{ text: String(format), kind: 'value' as const }] : []),
    ...values.map(({ value, description }) => ({
      text: value,
      kind: 'value' as const,
      documentation: () => description,
    })),
    ...words.map(text => ({ text, kind: 'value' as const })),
  ];
}
