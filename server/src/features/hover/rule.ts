import type { FileView } from '../../analysis/view.ts';
import { pathAt } from '../../syntax/path.ts';
import { ruleOf } from '../rule-pages.ts';
import type { Hover } from './known.ts';

/** Under `allow`: what the rule says that is silenced there. */
export function ruleHover(view: FileView, offset: number): Hover | undefined {
  const path = pathAt(view.tree, offset);
  const item = path[2];
  if (path[1]?.entry?.key.text !== 'allow' || path.length !== 3 || !item?.entry || item.node !== item.entry.key)
    return undefined;
  const rule = ruleOf(item.entry.key.text);
  return (
    rule && { ...view.tree.absolute(item.node.span), markdown: `**${rule.id}**: ${rule.title}\n\n${rule.explanation}` }
  );
}
