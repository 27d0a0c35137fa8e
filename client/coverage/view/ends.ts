import type { CoverageState, EndShare, ResultShare } from '../../../server/src/protocol/coverage.ts';
import { button, element } from '../../panel/view/element.ts';
import { bar } from './bar.ts';
import { mark } from './marks.ts';
import { type Act, heading, opener, part } from './parts.ts';

/** Where the walks end: a drawing, and in the same rows the table that says the same. */
export function drawEnds({ ends, results }: CoverageState, act: Act): HTMLElement | false {
  if (ends.length === 0) return false;
  const most = Math.max(...ends.map(one => shareOf(one)));
  return part(
    'Where they end',
    element(
      'div',
      { class: 'wide' },
      element(
        'table',
        { class: 'ends', 'aria-label': 'Walks of faults by where they end' },
        element(
          'thead',
          {},
          element(
            'tr',
            {},
            heading('Ends at'),
            element('td', { class: 'drawing', 'aria-hidden': 'true' }),
            heading('Walks', 'number'),
            heading('Share', 'number'),
            ...results.map(({ result, title }) =>
              element('th', { scope: 'col', class: 'number' }, mark(result), title),
            ),
          ),
        ),
        element('tbody', {}, ...ends.map(one => endRow(one, results, most, act))),
      ),
    ),
  );
}

function endRow(end: EndShare, results: readonly ResultShare[], most: number, act: Act): HTMLElement {
  const { at, title, isEnding, walks, percent, parts } = end;
  return element(
    'tr',
    {},
    element(
      'th',
      { scope: 'row' },
      button(at, `end ${at}`, () => act({ type: 'show', at }), { class: 'name', title: 'Show it in the text' }),
      element('span', { class: 'title' }, isEnding ? (title === at ? '' : title) : 'a step: no way on'),
    ),
    element('td', { class: 'drawing', 'aria-hidden': 'true' }, bar(parts, 14, most) as unknown as Node),
    element(
      'td',
      { class: 'number' },
      opener(
        String(walks),
        `walks ${at}`,
        { at, results: parts.map(({ result }) => result) },
        act,
        `${walks} walks end at ${at}`,
      ),
    ),
    element('td', { class: 'number' }, percent),
    ...results.map(({ result }) => {
      const own = parts.find(one => one.result === result);
      return element(
        'td',
        { class: 'number' },
        own &&
          opener(
            String(own.walks),
            `part ${at} ${result}`,
            own.choice,
            act,
            `${own.walks} walks end at ${at}, ${own.title}`,
          ),
      );
    }),
  );
}

function shareOf({ parts }: EndShare): number {
  return parts.reduce((sum, { share }) => sum + share, 0);
}
