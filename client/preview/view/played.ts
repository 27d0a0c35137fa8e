import type { PreviewState } from '../../../server/src/protocol/preview.ts';
import { button, element, sentence } from '../../panel/view/element.ts';
import type { ToHost } from '../messages.ts';

/** The sample walk that is played: where it must end, its next reading, and once it is over whether it got there. */
export function drawPlayed({ played, atHand }: PreviewState, act: (did: ToHost) => void): HTMLElement | false {
  if (played === undefined) return false;
  const { next, verdict, expected } = played;
  const give = next === '' ? 'Carry on' : `Give \`${next}\``;
  return element(
    'section',
    { class: 'played', 'aria-label': 'Sample walk' },
    element('p', {}, 'This sample walk must end at ', element('code', {}, expected)),
    verdict && element('p', { class: verdict.reached ? 'reached' : 'missed' }, sentence(verdict.message)),
    verdict?.detail !== undefined && element('p', { class: 'detail' }, sentence(verdict.detail)),
    next !== undefined &&
      element(
        'div',
        { class: 'bar' },
        button(give, 'play one', () => act({ type: 'answer', at: atHand.name, text: next }), { class: 'primary' }),
        button('To the end', 'play all', () => act({ type: 'play to the end' })),
      ),
  );
}
