import type { Option } from '../../../server/src/protocol/preview.ts';
import { element } from './element.ts';

/** A list to choose from under its label; with one thing there is nothing to choose, and with none nothing to show. */
export function choice(label: string, options: readonly Option[], choose: (id: string) => void): HTMLElement | false {
  if (options.length < 2) return options.length === 1 && single(label, options[0]!.label);
  const select = element('select', { 'data-key': label, change: () => choose(select.value) });
  for (const { id, label: text, chosen } of options) {
    select.append(element('option', { value: id, selected: chosen }, text));
  }
  return element('label', {}, element('span', {}, label), select);
}

function single(label: string, text: string): HTMLElement {
  return element('p', {}, element('span', {}, label), text);
}
