import type { FileView } from '../../analysis/view.ts';
import type { Shape, TextShape } from '../../schema/shape.ts';
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

  const words = text
    ? [...wordsOf(text), ...text.names.flatMap(kind => namesOf(kind, scene)), ...examplesOf(shape)]
    : [];
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
    const snippet = onOneLine(shape.snippet ?? usualBeginning(shape), inBrackets);
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

/** A value as it is written here; limits and readings have the circuit to ask. */
function examplesOf({ text, examples }: Shape): Word[] {
  const form = text?.quantity?.form;
  if (form === undefined || form === 'limit' || form === 'reading') return [];
  const written = examples.filter(example => typeof example === 'string');
  return written.map(example => ({ text: example, detail: 'for example', kind: 'value' }));
}

function usualBeginning({ list, maps, chosenBy }: Shape): string {
  if (list?.items.text) return '[$1]';
  if (list || maps.length === 0) return '$1';
  return chosenBy === 'kind' ? '{ kind: $1 }' : '{ $1 }';
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
