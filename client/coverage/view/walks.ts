import type { ListedWalk, WalkList } from '../../../server/src/protocol/coverage.ts';
import { button, element } from '../../panel/view/element.ts';
import { classOf, mark } from './marks.ts';
import type { Act } from './parts.ts';

/** The walks behind a cell, each with its way, over the foot of the page. */
export function drawWalks({ title, walks, more }: WalkList, act: Act): HTMLElement {
  return element(
    'section',
    { id: 'walks', 'aria-labelledby': 'walks-title' },
    element(
      'div',
      { class: 'over' },
      element('h2', { id: 'walks-title', tabindex: '-1', 'data-key': 'walks' }, title),
      button('Close', 'close walks', () => act({ type: 'close list' })),
    ),
    element('ol', {}, ...walks.map(walk => drawWalk(walk, act))),
    more > 0 && button(`List the other ${more}`, 'list all', () => act({ type: 'list all' })),
  );
}

function drawWalk(one: ListedWalk, act: Act): HTMLElement {
  const { walk, end, fault, title, entry, result, resultTitle, at, atTitle, minutes, way, remarks } = one;
  return element(
    'li',
    { class: classOf(result) },
    element(
      'div',
      { class: 'over' },
      element('h3', {}, fault, element('span', { class: 'title' }, title)),
      button('Walk it in the preview', `step ${walk} ${end}`, () => act({ type: 'walk', walk, end }), {
        'aria-label': `Walk it in the preview: ${fault} to ${at}`,
      }),
    ),
    element(
      'p',
      { class: 'comes' },
      mark(result),
      element('strong', {}, resultTitle),
      ` at ${at}`,
      atTitle === at ? '' : `, ${atTitle}`,
      `, ${minutes}`,
    ),
    element(
      'ol',
      { class: 'way', 'aria-label': `Way from ${entry}` },
      element('li', { class: 'entry' }, entry),
      ...way.map(({ at: step, text }) =>
        element(
          'li',
          {},
          element('span', { class: 'step' }, step),
          text !== '' && element('span', { class: 'given' }, text),
        ),
      ),
    ),
    ...remarks.map(text => element('p', { class: 'remark' }, text)),
  );
}
