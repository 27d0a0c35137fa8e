import type { Node, SyntaxTree } from '../../syntax/tree.ts';

/** A piece of a line that is kept as it is; only the blanks between pieces change. */
export interface Token {
  readonly kind: 'text' | 'mark' | 'comment';
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/**
 * The tokens of a file in order. Texts come from the tree, so that nothing inside a name or a value is ever touched; between
 * them stand only blanks, comments and marks, and words such as an anchor, which count as texts.
 */
export function tokensOf(tree: SyntaxTree): Token[] {
  const tokens: Token[] = [];
  let at = tree.text.startsWith('\ufeff') ? 1 : 0;
  for (const { start, end } of scalarsOf(tree)) {
    if (start < at) continue;
    between(tree.text, at, start, tokens);
    tokens.push({ kind: 'text', start, end, text: tree.text.slice(start, end) });
    at = end;
  }
  between(tree.text, at, tree.text.length, tokens);
  return tokens;
}

function scalarsOf(tree: SyntaxTree): { start: number; end: number }[] {
  const found: { start: number; end: number }[] = [];
  const seen = new Set<Node>();
  const visit = (node: Node): void => {
    // An alias is the node of its anchor once more.
    if (seen.has(node)) return;
    seen.add(node);
    if (node.kind === 'scalar') found.push(tree.absolute(node.span));
    if (node.kind === 'list') for (const item of node.items) visit(item);
    if (node.kind === 'map')
      for (const { key, value } of node.entries) {
        visit(key);
        visit(value);
      }
  };
  visit(tree.root);
  return found.filter(({ start, end }) => end > start).sort((a, b) => a.start - b.start);
}

const nextToken = /#[^\r\n]*|[{}[\],:]|[^\s{}[\],:]+/g;

function between(text: string, start: number, end: number, tokens: Token[]): void {
  for (const match of text.slice(start, end).matchAll(nextToken)) {
    const [found] = match;
    const from = start + match.index;
    const kind = found.startsWith('#') ? 'comment' : /^([{}[\],:-]|\?)$/.test(found) ? 'mark' : 'text';
    const trimmed = kind === 'comment' ? found.trimEnd() : found;
    tokens.push({ kind, start: from, end: from + trimmed.length, text: trimmed });
  }
}
