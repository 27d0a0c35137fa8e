import type { FileView } from '../../analysis/view.ts';
import { chosenMaps, keyIn, kindShape } from '../../schema/choose.ts';
import type { Shape } from '../../schema/shape.ts';
import { written } from '../../schema/words.ts';
import { trailTo } from '../completion/trail.ts';
import type { Hover } from './known.ts';

/** The documentation of a key, or of the one word that stands where only certain words can. */
export function keyHover(view: FileView, offset: number): Hover | undefined {
  const trail = trailTo(view, offset);
  const last = trail.at(-1);
  const holder = trail.at(-2);
  if (!last) return undefined;
  const stretch = view.tree.absolute(last.node.span);

  if (last.entry && last.node === last.entry.key && holder?.shape && holder.node.kind === 'map') {
    const chosen = chosenMaps(holder.shape, holder.node);
    const maps = chosen.length > 0 ? chosen : holder.shape.maps;
    const key = maps.map(map => keyIn(map, last.entry!.key.text)).find(found => found !== undefined);
    if (!key) return undefined;
    const shape = key.key === 'kind' && holder.shape.chosenBy === 'kind' ? kindShape(holder.shape) : key.shape;
    return { ...stretch, markdown: documentation(key.key, shape) };
  }
  if (last.node.kind !== 'scalar') return undefined;
  const { text } = last.node;
  const value = last.shape?.text?.values?.find(one => one.value === text);
  return value && { ...stretch, markdown: `**${text}**\n\n${value.description}` };
}

export function documentation(key: string, { description, examples, text }: Shape): string {
  const values =
    text?.values?.map(({ value, description: about }) => `- \`${value}\`${about ? `: ${about}` : ''}`) ?? [];
  const example =
    values.length === 0 && examples.length > 0 ? `\`\`\`yaml\n${key}: ${written(examples[0])}\n\`\`\`` : '';
  return [`**${key}**`, description, values.join('\n'), example].filter(part => part !== '').join('\n\n');
}
