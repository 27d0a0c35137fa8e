import type { NumberReading } from '../../analysis/electrical.ts';
import { displayed } from '../../analysis/meter-display.ts';
import { type Computed, computedAt, rangeInWords, variantsInWords } from '../../analysis/readings.ts';
import type { FileView, ProcedureView } from '../../analysis/view.ts';
import { parallelInWords } from '../../analysis/words/parallel.ts';
import { endsInWords, whyNoNumber } from '../../analysis/words/reading.ts';
import { situationInWords } from '../../analysis/words/situation.ts';
import { formatQuantity } from '../../base/quantity/format.ts';
import { meterAmount } from '../../base/quantity/meter-amount.ts';
import type { Step } from '../../model/step.ts';
import { pathAt } from '../../syntax/path.ts';
import { derivedInWords } from '../derived-limits.ts';
import { touches } from '../project.ts';
import type { Hover } from './known.ts';

const measuringKeys = new Set(['measure', 'limits', 'specification']);

/** What the circuit gives at the step, on its measuring keys. */
export function readingHover(view: FileView, offset: number): Hover | undefined {
  if (view.kind !== 'procedure') return undefined;
  const step = [...view.procedure.steps.values()].find(one => touches(view.tree.absolute(one.entry.span), offset));
  const item = pathAt(view.tree, offset).at(-1);
  if (!step || !item?.entry || !measuringKeys.has(item.entry.key.text)) return undefined;
  const markdown = readingInWords(view, step);
  return markdown === undefined ? undefined : { ...view.tree.absolute(item.node.span), markdown };
}

/** Nominal value and range for each variant, with the combination that gives each end. */
export function readingInWords(view: ProcedureView, step: Step): string | undefined {
  const all = computedAt(view, step);
  if (all.length === 0) return undefined;
  const said = ['On a machine without a fault the circuit gives', ...all.map(one => paragraph(view, one))];
  return [...said, ...derivedLimits(view, step)].join('\n\n');
}

/** What limits come to that are left to the circuit. */
function derivedLimits({ cases }: ProcedureView, step: Step): string[] {
  const derived = derivedInWords(step, cases);
  if (derived.length === 0) return [];
  const why =
    'all that a good machine can show, with the margin, as far as the meter may be off, out to its last digit';
  return [`The limits from the circuit are **${derived.join('** · **')}**: ${why}.`];
}

function paragraph(view: ProcedureView, one: Computed): string {
  const variants = variantsInWords(one, view.cases);
  const [first] = one.cases;
  const where = situationInWords(one.situation, first.circuit.rest);
  const lines = [
    `${variants ? `\`${variants}\`: ` : ''}**${rangeInWords(one.reading)}**`,
    ...(one.reading.state === 'number' ? numbers(one.reading) : [whyNoNumber(one.reading)]),
    ...(one.reading.state === 'number' ? onTheMeter(view, one, one.reading) : []),
    where === '' ? '' : `computed with ${where}`,
  ];
  return lines.filter(line => line !== '').join('  \n');
}

function numbers(reading: NumberReading): string[] {
  return [`nominal ${formatQuantity(reading.nominal, reading.dimension)}`, ...endsInWords(reading)];
}

/** The display of the procedure's own meter, and what else a resistance is read through. */
function onTheMeter(
  { procedure }: ProcedureView,
  { at, situation, cases }: Computed,
  reading: NumberReading,
): string[] {
  if (!at) return [];
  const also = cases[0].circuit.parallel(at, situation);
  if (reading.shows && reading.dimension === 'voltage') return [];
  const { text, value, error } = displayed(reading.nominal, reading.dimension, procedure.meter);
  const wrong = meterAmount(Number(error.toPrecision(2)), reading.dimension);
  const right = Number.isFinite(value) ? `, right to ± ${wrong}` : '';
  return [`the meter shows ${text}${right}`, ...(also ? [parallelInWords(also)] : [])];
}
