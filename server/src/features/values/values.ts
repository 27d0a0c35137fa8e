import { leadsInWords, sectionsOf } from '../../analysis/values/sections.ts';
import type { ValueRow, ValuesTable } from '../../analysis/values/table.ts';
import { workOnValues } from '../../analysis/values/values.ts';
import { leftOutInWords, onlyWhatMatters, statesInWords, valueInWords } from '../../analysis/values/words.ts';
import type { SystemView } from '../../analysis/view.ts';
import type { ValuesLine, ValuesState } from '../../protocol/values.ts';

/** What the panel of a system shows, worked out in small pieces. */
export function* workOnValuesState(view: SystemView, wanted: string | undefined): Generator<void, ValuesState> {
  const { system } = view;
  const table = yield* workOnTable(view, wanted);
  return {
    title: system.title ?? system.id?.text ?? 'System',
    variants: system.variants.map(id => ({
      id,
      label: system.variantDecls.get(id)?.title ?? id,
      chosen: id === table.variant,
    })),
    sections: sectionsOf(table).map(({ title, remark, rows }) => ({
      title,
      remark,
      rows: rows.map(row => lineOf(row, table)),
    })),
    notes: [onlyWhatMatters, ...leftOutInWords(table.leftOut)],
  };
}

/** The table of a variant, of the first one where there is none of that name. Asked again about an unchanged file it is there at once. */
export function* workOnTable(view: SystemView, wanted: string | undefined): Generator<void, ValuesTable> {
  const { variants } = view.system;
  const variant = variants.find(one => one === wanted) ?? variants[0]!;
  const known = tables.get(view) ?? new Map<string, ValuesTable>();
  tables.set(view, known);
  const table = known.get(variant) ?? (yield* workOnValues(view, variant));
  known.set(variant, table);
  return table;
}

const tables = new WeakMap<SystemView, Map<string, ValuesTable>>();

function lineOf(row: ValueRow, table: ValuesTable): ValuesLine {
  const leads = leadsInWords(row, table);
  return {
    point: row.red,
    leads,
    title: row.title === leads ? '' : row.title,
    also: [...row.also],
    readings: row.readings.map(({ states, reading }) => ({
      state: states.length > 0 ? statesInWords(states) : '',
      ...valueInWords(reading),
    })),
  };
}
