import { situationOfRow } from '../../analysis/limits.ts';
import { rangeInWords } from '../../analysis/readings.ts';
import type { FileView } from '../../analysis/view.ts';
import { existsIn } from '../../model/common.ts';
import { handheldMeter } from '../../model/meter.ts';
import { withKey } from '../../rules/fixes.ts';
import { derivedRowInWords } from '../derived-limits.ts';
import { touches } from '../project.ts';
import type { Hover } from './known.ts';

/** What the circuit gives in the situation of a row, on the limits of the row. */
export function rowHover(view: FileView, offset: number): Hover | undefined {
  if (view.kind !== 'system') return undefined;
  const { system } = view;
  for (const table of system.specifications.values()) {
    for (const row of table.rows.values()) {
      if (row.place.uri !== view.uri || !row.limits) continue;
      const stretch = view.tree.absolute(withKey(row, row.limits.place).span);
      if (!touches(stretch, offset)) continue;
      const variants = system.variants.filter(variant => existsIn(table, variant) && existsIn(row, variant));
      const given = variants.map(variant => {
        const circuit = view.circuit(variant);
        return rangeInWords(circuit.read(table.meter, handheldMeter, situationOfRow(table, row, circuit)));
      });
      const words = [...new Set(given)].map(text => `**${text}**`).join(' · ');
      const derived = row.limits.marginRatio === undefined ? [] : derivedRowInWords(view, table, row);
      const limits = derived.length > 0 ? `\n\nThe limits from the circuit are **${derived.join('** · **')}**.` : '';
      return { ...stretch, markdown: `In the situation of this row the circuit gives ${words}${limits}` };
    }
  }
  return undefined;
}
