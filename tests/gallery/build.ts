import * as path from 'node:path';
import type { Breakage, Edit } from './edit.ts';

/** A broken copy as it stands in `examples/broken`. */
export interface BrokenCopy {
  readonly breakage: Breakage;
  /** The files by their path below the folder of examples; the first is the broken one. */
  readonly files: ReadonlyMap<string, string>;
  /** What was done to the first file. */
  readonly changes: readonly Change[];
}

export interface Change {
  /** Where it stands in the copy, from 1. */
  readonly line: number;
  readonly before: readonly string[];
  readonly after: readonly string[];
}

/** Makes the copy; `examples` gives the text of each clean example by its path. */
export function brokenCopy(breakage: Breakage, examples: ReadonlyMap<string, string>): BrokenCopy {
  const copied = [breakage.file, ...(breakage.beside ?? [])];
  const changes: Change[] = [];
  const files = copied.map((file, i): [string, string] => {
    let text = examples.get(file);
    if (text === undefined) throw new Error(`${breakage.rule}: there is no example ${file}`);
    if (i === 0) {
      for (const edit of breakage.edits) {
        const after = edited(text, edit, breakage.rule);
        changes.push(changeFrom(text, after));
        text = after;
      }
      const { line } = changes.toSorted((a, b) => a.line - b.line)[0]!;
      text = `# Broken on purpose, line ${line}: ${breakage.what}.\n${text}`;
    }
    return [`broken/${breakage.rule}/${path.basename(file)}`, readElsewhere(text, copied, examples)];
  });
  return { breakage, files: new Map(files), changes };
}

function edited(text: string, [find, becomes]: Edit, rule: string): string {
  const pattern = typeof find === 'string' ? literal(find) : new RegExp(find, 'g');
  const found = [...text.matchAll(pattern)].length;
  if (found !== 1) throw new Error(`${rule}: ${find} stands ${found} times in the example`);
  return text.replace(pattern, () => becomes);
}

/** The lines that differ, without those that are the same ahead of them and behind them. */
function changeFrom(textBefore: string, textAfter: string): Change {
  const [before, after] = [textBefore.split('\n'), textAfter.split('\n')];
  const shorter = Math.min(before.length, after.length);
  let ahead = 0;
  while (ahead < shorter && before[ahead] === after[ahead]) ahead++;
  let behind = 0;
  const most = shorter - ahead;
  while (behind < most && before.at(-1 - behind) === after.at(-1 - behind)) behind++;
  return {
    // The first line of the copy says what is broken.
    line: ahead + 2,
    before: before.slice(ahead, before.length - behind),
    after: after.slice(ahead, after.length - behind),
  };
}

/** What is not copied is read where it stands. */
function readElsewhere(text: string, copied: readonly string[], examples: ReadonlyMap<string, string>): string {
  const name = (file: string) => new RegExp(`(?<=[\\s{[])${literal(path.basename(file)).source}`, 'g');
  return [...examples.keys()]
    .filter(file => !copied.includes(file))
    .reduce((all, file) => all.replace(name(file), `../../${file}`), text);
}

function literal(text: string): RegExp {
  return new RegExp(text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&'), 'g');
}
