import type { CoverageState, FigureRow, ResultShare } from '../../../server/src/protocol/coverage.ts';
import { button, element } from '../../panel/view/element.ts';
import { bar } from './bar.ts';
import { classOf, mark } from './marks.ts';
import { type Act, heading, opener, part } from './parts.ts';

/** All walks of faults in one strip by what they come to, and beside it the table that says the same. */
export function drawResults({ results }: CoverageState, act: Act): HTMLElement {
  return part(
    'What the faults come to',
    results.length > 0 && element('div', { class: 'strip' }, bar(results, 26) as unknown as Node),
    results.length > 0 &&
      element(
        'table',
        { class: 'results', 'aria-label': 'Walks of faults by what they come to' },
        element(
          'thead',
          {},
          element(
            'tr',
            {},
            heading('Result'),
            heading('Walks', 'number'),
            heading('Share', 'number'),
            heading('By likelihood', 'number'),
            heading('Meaning', 'meaning'),
          ),
        ),
        element('tbody', {}, ...results.map(one => resultRow(one, act))),
      ),
  );
}

function resultRow({ result, title, meaning, walks, percent, weightedPercent, choice }: ResultShare, act: Act) {
  return element(
    'tr',
    { class: classOf(result) },
    element('th', { scope: 'row' }, mark(result), title),
    element(
      'td',
      { class: 'number' },
      opener(String(walks), `result ${result}`, choice, act, `${walks} walks, ${title}`),
    ),
    element('td', { class: 'number' }, percent),
    element('td', { class: 'number' }, weightedPercent),
    element('td', { class: 'meaning' }, meaning),
  );
}

/** Each figure with what it is a part of. */
export function drawFigures({ figures }: CoverageState, act: Act): HTMLElement {
  return part(
    'Figures',
    element(
      'p',
      { class: 'remark' },
      'Fractions of faults detected and isolated in the sense of IEEE Std 1522. A walk is one fault from one way in.',
    ),
    element(
      'table',
      { class: 'figures', 'aria-label': 'Figures' },
      element(
        'thead',
        {},
        element(
          'tr',
          {},
          heading('Figure'),
          heading('Counted', 'number'),
          heading('Of', 'meaning'),
          heading('Share', 'number'),
          heading('By likelihood', 'number'),
        ),
      ),
      element('tbody', {}, ...figures.map(one => figureRow(one, act))),
    ),
  );
}

function figureRow({ name, counted, of, percent, weighted, choice }: FigureRow, act: Act): HTMLElement {
  const isEmpty = choice === undefined || counted.startsWith('0 ');
  return element(
    'tr',
    {},
    element('th', { scope: 'row' }, name),
    element(
      'td',
      { class: 'number' },
      isEmpty ? counted : opener(counted, `figure ${name}`, choice, act, `${name}: ${counted} ${of}`),
    ),
    element('td', { class: 'meaning' }, of),
    element('td', { class: 'number' }, percent),
    element('td', { class: 'number' }, weighted),
  );
}

/** What is not in the tables, and why. */
export function drawNotWalked({ notWalked, unproved }: CoverageState, act: Act): HTMLElement | false {
  if (notWalked.length === 0 && !unproved) return false;
  return part(
    'What is not shown to end well',
    unproved &&
      element(
        'p',
        {},
        button(unproved.text, 'unproved', () => act({ type: 'list', choice: unproved.choice }), { class: 'name' }),
      ),
    ...notWalked.map(({ title, reason, owners }) =>
      element(
        'details',
        {},
        element('summary', { 'data-key': `not walked ${title} ${reason}` }, title),
        element('p', { class: 'remark' }, reason),
        element(
          'dl',
          {},
          ...owners.flatMap(({ owner, faults }) => [element('dt', {}, owner), element('dd', {}, faults.join(', '))]),
        ),
      ),
    ),
  );
}
