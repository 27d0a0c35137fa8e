import type { CautionText } from '../../../server/src/protocol/preview.ts';
import { element, sentence } from '../../panel/view/element.ts';

/** Signal word first; what is worst stands on top. */
export function cautionList(cautions: readonly CautionText[]): HTMLElement | false {
  if (cautions.length === 0) return false;
  const sorted = [...cautions].sort((a, b) => order.indexOf(a.word) - order.indexOf(b.word));
  return element(
    'ul',
    { class: 'cautions', 'aria-label': 'Cautions' },
    ...sorted.map(({ word, text }) =>
      element('li', { class: word }, element('strong', {}, word), element('span', {}, sentence(text))),
    ),
  );
}

const order: readonly CautionText['word'][] = ['danger', 'warning', 'caution', 'notice'];
