import type { WalkChoice } from '../../../server/src/protocol/coverage.ts';
import { button, element } from '../../panel/view/element.ts';
import type { ToHost } from '../messages.ts';

export type Act = (did: ToHost) => void;

/** A part of the page under its heading. */
export function part(title: string, ...children: (Node | string | undefined | false)[]): HTMLElement {
  return element('section', { 'aria-label': title }, element('h2', {}, title), ...children);
}

/** A count that opens the list of what it counts; `of` says that to those who do not see where it stands. */
export function opener(text: string, key: string, choice: WalkChoice, act: Act, of: string): HTMLElement {
  return button(text, key, () => act({ type: 'list', choice }), { class: 'open', 'aria-label': `${text}: ${of}` });
}
