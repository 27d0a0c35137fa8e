import { leadsInWords, sectionsOf, titleWithVariant, type ValuesSection } from '../analysis/values/sections.ts';
import type { ValuesTable } from '../analysis/values/table.ts';
import { leftOutInWords, onlyWhatMatters, statesInWords, valueInWords } from '../analysis/values/words.ts';

/** The tables as Markdown with the tables of GitHub Flavored Markdown. */
export function valuesAsMarkdown(title: string, tables: readonly ValuesTable[]): string {
  const blocks = tables.flatMap(table => [
    `# ${inert(titleWithVariant(title, table))}`,
    ...sectionsOf(table).flatMap(section => sectionAsMarkdown(section, table)),
    [onlyWhatMatters, ...leftOutInWords(table.leftOut)].map(inert).join('\n'),
  ]);
  return `${blocks.join('\n\n')}\n`;
}

function sectionAsMarkdown({ title, remark, rows }: ValuesSection, table: ValuesTable): string[] {
  const lines = rows.flatMap(row =>
    row.readings.map(({ states, reading }, i) => {
      const { range, nominal } = valueInWords(reading);
      const place = i === 0 ? [leadsInWords(row, table), row.title, row.also.join(', ')] : ['', '', ''];
      return `| ${[...place, states.length > 0 ? statesInWords(states) : '', range, nominal].map(inert).join(' | ')} |`;
    }),
  );
  const head = ['| Place | Title | Same at | State | Reading | Nominal |', '| --- | --- | --- | --- | --- | --- |'];
  return [`## ${title}`, inert(remark), ...(lines.length > 0 ? [[...head, ...lines].join('\n')] : [])];
}

/** A name out of a file that stays a name: nothing in it is markup, and it stays in its cell. */
function inert(text: string): string {
  return text.replace(/\s+/g, ' ').replace(/[\\`*_[\]<>|#~]/g, '\\$&');
}
