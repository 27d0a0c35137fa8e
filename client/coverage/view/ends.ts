import type { CoverageState, EndShare } from '../../../server/src/protocol/coverage.ts';
import { button, element } from '../../panel/view/element.ts';
import { bar } from './bar.ts';
import { mark } from './marks.ts';
import { type Act, opener, part } from './parts.ts';

/** Where the walks end: a drawing, and in the same rows the table that says the same. */
export function drawEnds({ ends }: CoverageState, act: Act): HTMLElement | false {
  if (ends.length === 0) return false;
  const most = Math.max(...ends.map(({ parts }) => parts.reduce((sum, { share }) => sum + share, 0)));
  return part(
    'Where they end',
    element(
      'table',
      { class: 'ends', 'aria-label': 'Walks of faults by where they end' },
      element(
        'thead',
        {},
        element(
          'tr',
          {},
          element('th', { scope: 'col' }, 'Ends at'),
          element('th', { scope: 'col', class: 'drawing' }, 'Walks, and what they come to'),
          element('th', { scope: 'col' }, 'Share'),
        ),
      ),
      element('tbody', {}, ...ends.map(one => endRow(one, most, act))),
    ),
  );
}

function endRow({ at, title, isEnding, percent, parts }: EndShare, most: number, act: Act): HTMLElement {
  return element(
    'tr',
    {},
    element(
      'th',
      { scope: 'row', class: 'end' },
      button(at, `end ${at}`, () => act({ type: 'show', at }), { class: 'name', title: 'Show it in the text' }),
      element('span', { class: 'title' }, isEnding ? title : 'a step'),
    ),
    element(
      'td',
      { class: 'drawing' },
      ...parts.map(({ result, title: told, walks, choice }) =>
        element(
          'span',
          { class: 'count' },
          mark(result),
          opener(`${walks} ${told}`, `part ${at} ${result}`, choice, act, `walks that end at ${at}`),
        ),
      ),
      bar(parts, 12, most),
    ),
    element('td', {}, percent),
  );
}
