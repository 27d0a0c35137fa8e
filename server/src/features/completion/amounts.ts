import { type Dimension, dimensionFacts } from '../../base/quantity/dimension.ts';
import { unitsOf } from '../../base/quantity/units.ts';
import { dimensionOf } from '../../model/read-step.ts';
import type { MeasureKind } from '../../model/step.ts';
import type { QuantityShape } from '../../schema/shape.ts';
import { find } from '../../syntax/tree.ts';
import type { Candidate, Word } from './candidate.ts';
import type { Spot } from './spot.ts';

/** Behind a number the units that fit, elsewhere the words that a quantity may begin with. */
export function amountsAt(quantity: QuantityShape, spot: Spot): Candidate[] {
  const { typed, replace, prefix } = spot;
  const unitAt = /(\d)(\s*)([^\s\d.,]*)$/.exec(typed);
  const cursor = replace.start + typed.length;
  const dimension = dimensionHere(quantity, spot);
  if (unitAt && dimension) {
    const [, , blank, begun] = unitAt;
    return unitsOf(dimension).map(({ symbol }) => ({
      label: symbol,
      kind: 'unit',
      detail: dimension,
      insert: `${blank === '' ? ' ' : ''}${symbol}`,
      isSnippet: false,
      // What comes behind the cursor is another number at best, so only the unit itself is replaced.
      replace: { start: cursor - begun.length, end: cursor },
    }));
  }
  return wordsFor(quantity, dimension).map(({ text, detail }) => ({
    label: text,
    kind: 'value',
    ...(detail && { detail }),
    insert: prefix + text,
    isSnippet: false,
    replace,
  }));
}

function wordsFor({ form, words = [] }: QuantityShape, dimension: Dimension | undefined): Word[] {
  const example = dimension && dimensionFacts[dimension].example;
  const limits = form !== 'limit' ? [] : ['below', 'above', 'at least', 'at most'];
  return [
    ...limits.map(text => ({ text: example ? `${text} ${example}` : text, detail: 'limit' })),
    ...(form === 'limit' || form === 'reading'
      ? [{ text: 'OL', detail: 'over limit: what the meter shows beyond its range' }]
      : []),
    ...words.map(text => ({ text })),
  ];
}

/** The dimension of the place itself, or that of what the step or specification measures. */
function dimensionHere({ quantity }: QuantityShape, { trail }: Spot): Dimension | undefined {
  if (quantity in dimensionFacts) return quantity as Dimension;
  for (const { node } of [...trail].reverse()) {
    const measure = find(node, 'measure')?.value;
    if (measure?.kind === 'scalar') return dimensionOf[measure.text as MeasureKind];
  }
  return undefined;
}
