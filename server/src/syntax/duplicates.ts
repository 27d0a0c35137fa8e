import { quoted, type SyntaxProblem } from './problems.ts';
import type { Entry, Node } from './tree.ts';

/** Names that stand twice in one map, anywhere in a node. Shared nodes are looked at once. */
export function repeatedKeys(node: Node, seen: Set<Node>): readonly SyntaxProblem[] {
  if (node.kind === 'scalar' || node.kind === 'empty' || seen.has(node)) return [];
  seen.add(node);
  if (node.kind === 'list') return node.items.flatMap(item => repeatedKeys(item, seen));
  return [...repeatedEntries(node.entries), ...node.entries.flatMap(entry => repeatedKeys(entry.value, seen))];
}

/** In one map; a text made of nothing but repetitions is not worth more. */
const MOST_PROBLEMS = 100;

/** Each entry whose name an earlier one has already. */
export function repeatedEntries(entries: readonly Entry[]): readonly SyntaxProblem[] {
  if (entries.length < 2) return [];
  const first = new Map<string, Entry>();
  const problems: SyntaxProblem[] = [];
  for (const entry of entries) {
    if (problems.length === MOST_PROBLEMS) break;
    const { key } = entry;
    const before = first.get(key.text);
    if (!before) first.set(key.text, entry);
    else if (before !== entry) {
      problems.push({
        id: 'duplicate-key',
        span: key.span,
        message: `${quoted(key.text)} stands twice in the same place`,
        detail: 'Only the first one would be read.',
        help: 'rename one of the two, or bring them together',
        related: [{ span: before.key.span, message: `${quoted(key.text)} stands here first` }],
      });
    }
  }
  return problems;
}
