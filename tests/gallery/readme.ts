import { severities } from '../../server/src/publish/report.ts';
import { reportAsText } from '../../server/src/publish/report-text.ts';
import { groupTitles } from '../../server/src/publish/rule-page.ts';
import { rules } from '../../server/src/rules/index.ts';
import type { Rule } from '../../server/src/rules/rule.ts';
import type { Change } from './build.ts';
import { exempt } from './edits.ts';
import type { Exhibit } from './gallery.ts';

const opening = `# The gallery

One broken copy of an example for each rule: what was changed, and what is then said. The clean examples stand beside this folder. Look at any
of them yourself:

\`\`\`sh
npx faultwalk check examples/broken/unreachable-step
\`\`\`

\`npm run gallery\` writes this page and the copies from the list in \`tests/gallery/edits\`; a test holds them together. Where a copy names
files that are not in its own folder, these are the clean ones.

What is broken mostly changes where faults end as well. That is shown in the chapter on walks of faults and left out everywhere else; the
command above tells it of every copy that has no error.`;

/** The page of the gallery, with every message as it is read at a terminal. */
export function readme(exhibits: readonly Exhibit[]): string {
  const shown = new Map(exhibits.map(exhibit => [exhibit.breakage.rule, exhibit]));
  const chapters = Object.entries(groupTitles).flatMap(([group, title]) => {
    const entries = rules.filter(rule => rule.group === group && shown.has(rule.id));
    return entries.length > 0 ? [`## ${title}`, ...entries.flatMap(rule => entry(rule, shown.get(rule.id)!))] : [];
  });
  const without = rules
    .filter(({ id }) => id in exempt)
    .map(({ id, title }) => `- \`${id}\` (${title}): ${exempt[id]}.`);
  return `${[opening, ...chapters, '## Rules without a copy', without.join('\n')].join('\n\n')}\n`;
}

function entry({ id, title, severity }: Rule, { files, changes, report }: Exhibit): string[] {
  const [file = ''] = files.keys();
  const also = severities.indexOf(severity) > 1 ? ` (${severity})` : '';
  return [
    `### [\`${id}\`](${file.replace('broken/', '')}): ${title}${also}`,
    fenced('diff', changes.flatMap(differing).join('\n')),
    fenced('text', reportAsText(report).replace(/\n\n[^\n]*finding[\s\S]*$/, '')),
  ];
}

/** Line by line where a line became another one. */
function differing({ before, after }: Change): string[] {
  if (before.length !== after.length) return [...shortened('-', before), ...shortened('+', after)];
  const pairs = before.map((line, i) => [line, after[i]!] as const).filter(([line, other]) => line !== other);
  return pairs.flatMap(([line, other]) => [...shortened('-', [line]), ...shortened('+', [other])]);
}

/** A page that shows hundreds of lines or columns shows none of them. */
function shortened(sign: string, lines: readonly string[]): string[] {
  const shown = lines.length > 8 ? [...lines.slice(0, 3), `… ${lines.length - 4} more lines …`, lines.at(-1)!] : lines;
  return shown.map(line => `${sign}${line.length > 200 ? `${line.slice(0, 100)} … ${line.slice(-60)}` : line}`);
}

function fenced(language: string, text: string): string {
  return `\`\`\`${language}\n${text}\n\`\`\``;
}
