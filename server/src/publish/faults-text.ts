import type { Extent, Fault } from '../analysis/faults/fault.ts';
import { formatQuantity } from '../base/quantity/format.ts';
import type { ListedFault } from './faults.ts';
import { harmless, type Paint, plain } from './paint.ts';

/** The faults as a table for a reader at a terminal, those that the file excludes below it with the reason. */
export function faultsAsText(
  title: string,
  faults: readonly ListedFault[],
  variants: readonly string[],
  paint: Paint = plain,
): string {
  const kept = faults.filter(({ fault }) => fault.excluded === undefined);
  const out = faults.filter(({ fault }) => fault.excluded !== undefined);
  const only = (one: ListedFault) => (one.variants.length === variants.length ? '' : one.variants.join(', '));
  const sources = [...new Set(kept.flatMap(({ fault }) => sourcesOf(fault)))];
  const numbers = (fault: Fault) => sourcesOf(fault).map(source => sources.indexOf(source) + 1);
  const rows = kept.map(one => row(one, only(one), numbers(one.fault)));
  const table = aligned([['fault', 'mended by', 'likelihood', 'severity', 'extent', 'only in', 'from'], ...rows]);
  const [head = '', ...lines] = table;
  const excluded = aligned(out.map(one => [one.fault.id, one.fault.excluded!, only(one)]));
  const blocks = [
    `${paint('bold', harmless(title))}\n${total(kept, out)}`,
    [paint('dim', head), ...lines].join('\n'),
    [paint('bold', 'From'), ...aligned(sources.map((source, i) => [String(i + 1), source]))].join('\n'),
    ...(excluded.length > 0 ? [[paint('bold', 'Excluded'), ...excluded].join('\n')] : []),
  ];
  return `${blocks.join('\n\n')}\n`;
}

function row({ fault }: ListedFault, only: string, from: readonly number[]): string[] {
  const { id, mendedBy, likelihood, severity, extent } = fault;
  return [id, mendedBy.join(', '), String(likelihood), String(severity), extentInWords(extent), only, from.join(', ')];
}

/** Where the likelihood is from, and the extent if that is from elsewhere. */
function sourcesOf({ likelihoodSource, extent, added }: Fault): readonly string[] {
  const first = added === undefined ? likelihoodSource : `added: ${added}`;
  return [...new Set([first, ...(extent ? [extent.source] : [])])];
}

/** `10 Ω`, `-50 %`, `10.5 V`. */
export function extentInWords(extent: Extent | undefined): string {
  return extent ? formatQuantity(extent.value, extent.dimension) : '';
}

function total(kept: readonly ListedFault[], out: readonly ListedFault[]): string {
  const many = new Set(kept.map(one => one.fault.id)).size;
  const excluded = new Set(out.map(one => one.fault.id)).size;
  return `${many} fault${many === 1 ? '' : 's'}${excluded > 0 ? `, ${excluded} excluded` : ''}`;
}

/** Columns of equal width; one that is empty but for its head is left out, and the last one is never padded. */
function aligned(rows: readonly (readonly string[])[]): string[] {
  const clean = rows.map(cells => cells.map(harmless));
  const columns = (clean[0] ?? []).map((_, i) => i).filter(i => clean.slice(clean.length > 1 ? 1 : 0).some(r => r[i]));
  const widths = columns.map(i => Math.max(...clean.map(r => r[i]!.length)));
  return clean.map(r =>
    columns
      .map((i, n) => r[i]!.padEnd(widths[n]!))
      .join('  ')
      .trimEnd(),
  );
}
