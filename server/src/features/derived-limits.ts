import { type Limits, limitsOf, limitsOfRow } from '../analysis/limits.ts';
import { variantsInWords } from '../analysis/readings.ts';
import type { Case, SystemView } from '../analysis/view.ts';
import { existsIn } from '../model/common.ts';
import { specifiedAt } from '../model/specification.ts';
import { type Step, stepIn } from '../model/step.ts';
import type { Specification, SpecificationRow } from '../model/system.ts';
import { rangeInWords } from '../walk/choose.ts';

/** What the circuit gives as the limits of a step, with the variants where they differ: `plain 12.04 V .. 13.02 V`. */
export function derivedInWords(step: Step, cases: readonly Case[]): string[] {
  const words = new Map<string, Case[]>();
  for (const one of cases) {
    const data = stepIn(step, one.variant);
    if (!existsIn(step, one.variant) || specifiedAt(data, one.system)?.marginRatio === undefined) continue;
    const text = inWords(limitsOf(data, one));
    words.set(text, [...(words.get(text) ?? []), one]);
  }
  return [...words].map(([text, of]) => joined(variantsInWords({ cases: of }, cases), text));
}

/** The same for a row of a specification table. */
export function derivedRowInWords(
  { system, circuit }: SystemView,
  table: Specification,
  row: SpecificationRow,
): string[] {
  const words = new Map<string, string[]>();
  const variants = system.variants.filter(variant => existsIn(table, variant) && existsIn(row, variant));
  for (const variant of variants) {
    const text = inWords(limitsOfRow(table, row, circuit(variant)));
    words.set(text, [...(words.get(text) ?? []), variant]);
  }
  return [...words].map(([text, of]) => joined(of.length < variants.length ? of.join(', ') : '', text));
}

function inWords(limits: Limits): string {
  return limits.state === 'known' ? rangeInWords(limits.limit) : 'not known';
}

function joined(variants: string, text: string): string {
  return variants === '' ? text : `${variants} ${text}`;
}
