import { leadsInWords, sectionsOf, titleWithVariant, type ValuesSection } from '../analysis/values/sections.ts';
import type { ValueRow, ValuesTable } from '../analysis/values/table.ts';
import { leftOutInWords, onlyWhatMatters, statesInWords, valueInWords } from '../analysis/values/words.ts';
import { harmless, type Paint, plain } from './paint.ts';

/** The tables for a reader at a terminal: columns that stand below one another, the places on the left. */
export function valuesAsText(title: string, tables: readonly ValuesTable[], paint: Paint = plain): string {
  const blocks = tables.flatMap(table => [
    paint('bold', harmless(titleWithVariant(title, table))),
    ...sectionsOf(table).map(section => sectionAsText(section, table, paint)),
    [onlyWhatMatters, ...leftOutInWords(table.leftOut)].map(harmless).join('\n'),
  ]);
  return `${blocks.join('\n\n')}\n`;
}

type Cells = readonly [place: string, state: string, range: string, nominal: string];

function sectionAsText({ title, remark, rows }: ValuesSection, table: ValuesTable, paint: Paint): string {
  const heading: Cells = ['Place', 'State', 'Reading', 'Nominal'];
  const blocks = rows.map(row => linesOf(row, table));
  const widths = heading.map((head, column) =>
    Math.max(head.length, ...blocks.flat().map(cells => cells[column]!.length)),
  );
  const line = (cells: Cells) =>
    cells
      .map((cell, column) => cell.padEnd(widths[column]!))
      .join('  ')
      .trimEnd();
  const body = blocks.map(block => block.map(cells => line(cells)).join('\n'));
  const head = rows.length > 0 ? [paint('dim', line(heading)), ...body] : [];
  return [`${paint('bold', title)}\n${harmless(remark)}`, ...head].join('\n');
}

/** The place with its other names on the left, the readings on the right, as many lines as the longer of both. */
function linesOf(row: ValueRow, table: ValuesTable): Cells[] {
  const leads = leadsInWords(row, table);
  const own = row.title === leads ? leads : `${leads}  ${row.title}`;
  const left = [own, ...wrapped(row.also).map(line => `  ${line}`)].map(harmless);
  const right = row.readings.map(({ states, reading }) => {
    const { range, nominal } = valueInWords(reading);
    return [harmless(states.length > 0 ? statesInWords(states) : ''), range, nominal] as const;
  });
  return Array.from({ length: Math.max(left.length, right.length) }, (_, i) => [
    left[i] ?? '',
    ...(right[i] ?? (['', '', ''] as const)),
  ]);
}

/** The names in lines that leave room for the readings. */
function wrapped(names: readonly string[]): string[] {
  const lines: string[] = [];
  for (const name of names) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + name.length < widestNames) lines[lines.length - 1] = `${last}, ${name}`;
    else lines.push(name);
  }
  return lines;
}

const widestNames = 34;
