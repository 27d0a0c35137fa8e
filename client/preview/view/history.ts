import type { HistoryEntry, PreviewState } from '../../../server/src/protocol/preview.ts';
import { button, element, sentence } from '../../panel/view/element.ts';
import type { ToHost } from '../messages.ts';

type Act = (did: ToHost) => void;

/** The lines of the sheet that are filled in: each step with its reading. */
export function drawHistory({ history, sheet }: PreviewState, act: Act): HTMLElement {
  const lines = history.map((entry, index) => line(entry, index, !sheet.isAtHand && entry.name === sheet.name, act));
  return element(
    'section',
    { class: 'history', 'aria-label': 'So far', hidden: lines.length === 0 },
    element('ol', {}, ...lines),
  );
}

function line({ name, title, text, why }: HistoryEntry, index: number, isShown: boolean, act: Act): HTMLElement {
  return element(
    'li',
    { 'aria-current': isShown && 'true' },
    button(title, `look ${index}`, () => act({ type: 'show', name }), { class: 'name' }),
    element('span', { class: 'given' }, text === '' ? 'done' : text),
    button('Back to here', `again ${index}`, () => act({ type: 'back to', index }), {
      class: 'again',
      'aria-label': `Back to here: ${title}`,
    }),
    why !== '' && element('span', { class: 'why' }, sentence(why)),
  );
}
