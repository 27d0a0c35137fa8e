import type { FileView } from '../../analysis/view.ts';
import { namesAt, stretchOf } from '../names/names-in.ts';
import { type Project, touches } from '../project.ts';
import { branchHover } from './branch.ts';
import { faultHover } from './fault.ts';
import { keyHover } from './key.ts';
import type { Hover } from './known.ts';
import { readingHover } from './reading.ts';
import { rowHover } from './row.ts';
import { ruleHover } from './rule.ts';
import { seenHover } from './seen.ts';
import { thingHover } from './thing.ts';

/** What stands at the offset means: a name, a branch, a key with what the circuit gives there, or a rule that is silenced. */
export function hover(project: Project, view: FileView, offset: number): Hover | undefined {
  const names = namesAt(view, offset);
  const [first] = names;
  if (first) {
    // Where a thing is declared its text is before the reader's eyes.
    const markdown = joined(names.map(({ thing, declares }) => thingHover(project, thing, !declares) ?? ''));
    if (markdown !== '') return { ...stretchOf(view, first), markdown };
  }
  const parts = [ruleHover, seenHover, branchHover, readingHover, rowHover, faultHover, keyHover].flatMap(
    make => make(view, offset) ?? [],
  );
  const [here] = parts;
  if (!here || !touches(here, offset)) return undefined;
  return { ...here, markdown: joined(parts.map(({ markdown }) => markdown)) };
}

function joined(parts: readonly string[]): string {
  return [...new Set(parts)].filter(part => part !== '').join('\n\n---\n\n');
}
