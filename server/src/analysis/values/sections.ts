import { STANDARD } from '../../model/common.ts';
import type { ValueRow, ValuesTable } from './table.ts';
import { resistancesInWords, voltagesInWords } from './words.ts';

/** One of the two lists of a table as every form of it shows it. */
export interface ValuesSection {
  readonly title: string;
  /** How it is measured. */
  readonly remark: string;
  readonly rows: readonly ValueRow[];
}

/** The lists that have something in them, or that have nothing for a reason. */
export function sectionsOf(table: ValuesTable): ValuesSection[] {
  const { voltages, resistances, black } = table;
  const all = [
    { title: 'Voltages', remark: voltagesInWords(table), rows: voltages },
    { title: 'Resistances', remark: resistancesInWords(), rows: resistances },
  ];
  return all.filter(({ title, rows }) => rows.length > 0 || (title === 'Voltages' && black === undefined));
}

/** The title of a system with the variant, where it has any. */
export function titleWithVariant(title: string, { variant }: ValuesTable): string {
  return variant === STANDARD ? title : `${title}: ${variant}`;
}

/** Where the leads go; the black one is only named where it moves from row to row. */
export function leadsInWords({ red, black }: ValueRow, { black: common }: ValuesTable): string {
  return black === common ? red : `${red} to ${black}`;
}
