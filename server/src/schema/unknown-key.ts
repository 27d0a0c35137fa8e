import { type Entry, find, type MapNode, type ScalarNode } from '../syntax/tree.ts';
import { selectorsOf } from './choose.ts';
import { quoteText } from './fix.ts';
import { meantKey, writeInstead } from './meant.ts';
import type { ShapeProblem } from './problem.ts';
import type { MapShape, Shape } from './shape.ts';
import { article, either, nounOf, oneOf, quote } from './words.ts';

/** A key that has no place here. What stands below it is not looked at. */
export function unknownKey(shape: Shape, allowed: readonly MapShape[], node: MapNode, entry: Entry): ShapeProblem {
  const { span, text } = entry.key;
  const id = 'unknown-key';
  for (const { denied } of allowed) {
    const denial = denied.get(text);
    if (!denial) continue;
    return { id, span, message: `${quote(text)} ${denial.says}`, detail: denial.why, help: 'Remove it here.' };
  }
  const message = `${quote(text)} is not a key of ${article(nounOf(shape, allowed))}`;
  return { id, span, message, ...advice(shape, allowed, node, entry) };
}

type Advice = Pick<ShapeProblem, 'detail' | 'help' | 'fixes'>;

/** What to write instead. */
function advice(shape: Shape, allowed: readonly MapShape[], node: MapNode, entry: Entry): Advice {
  const { text } = entry.key;
  const meant = meantKey(text, allowed);
  if (meant !== undefined && text.startsWith(`${meant}:`)) {
    const spaced = `${meant}: ${text.slice(meant.length + 1).trim()}`;
    return { detail: 'A colon ends a key only with a blank behind it.', ...write(spaced, entry.key) };
  }
  const isThere = meant !== undefined && find(node, meant) !== undefined;
  if (meant !== undefined && !isThere) return write(meant, entry.key);
  const cut = quoteText(node, entry);
  if (cut) {
    const detail = 'Inside { } a comma ends the value before it, unless that value is quoted.';
    return { detail, help: `Write \`${cut.text}\`, with the quotes.`, fixes: [cut] };
  }
  if (isThere) return { help: `Remove it: \`${meant}\` is there already.` };
  const homes = shape.maps.filter(map => map.keys.has(text)).map(map => article(map.title));
  if (homes.length > 0)
    return { detail: `${quote(text)} belongs to ${either(homes.slice(0, 3))}.`, help: 'Remove it.' };
  if (allowed.length > 1 && shape.chosenBy !== 'kind') return { help: `Use one of ${oneOf(selectorsOf(allowed))}.` };
  const free = [...new Set(allowed.flatMap(map => [...map.keys.keys()]))].filter(key => !find(node, key));
  if (free.length === 0) return { help: 'Remove it.' };
  return { help: `Remove it, or use ${free.length > 8 ? `a key such as ${oneOf(free.slice(0, 5))}` : oneOf(free)}.` };
}

function write(meant: string, { span, text }: ScalarNode): Advice {
  return { help: `Write \`${meant}\`.`, fixes: [writeInstead(meant, span, text)] };
}
