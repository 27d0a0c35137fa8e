import { isAlias, isMap, isScalar, isSeq, parseDocument, type Node as YamlNode } from 'yaml';
import type { Node, ScalarNode } from '../../server/src/syntax/tree.ts';

/** The tree of a text, read in one piece. */
export function treeOf(text: string): Node {
  const unit = { text };
  const document = parseDocument(text, { schema: 'failsafe', keepSourceTokens: true, uniqueKeys: false });
  if (document.errors[0]) throw document.errors[0];
  const read = (node: YamlNode | null, at: number): Node => {
    if (isAlias(node)) return read(node.resolve(document) ?? null, at);
    const [start, end] = node?.range ?? [at, at];
    const span = { unit, start, end };
    if (isMap<YamlNode, YamlNode | null>(node)) {
      const entries = node.items.map(({ key, value }) => {
        const name = read(key, start) as ScalarNode;
        const under = read(value, name.span.end + 1);
        return { key: name, value: under, span: { unit, start: name.span.start, end: under.span.end } };
      });
      return { kind: 'map', span, entries };
    }
    if (isSeq<YamlNode>(node)) return { kind: 'list', span, items: node.items.map(item => read(item, start)) };
    if (!isScalar(node) || start === end) return { kind: 'empty', span };
    return { kind: 'scalar', span, text: String(node.value), quoted: /^["']/.test(text.slice(start, end)) };
  };
  return read(document.contents, 0);
}
