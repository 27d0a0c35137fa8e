import type { CoverageState, FigureRow, ResultShare } from '../../../server/src/protocol/coverage.ts';
import { button, element } from '../../panel/view/element.ts';
import { bar } from './bar.ts';
import { mark } from './marks.ts';
import { type Act, opener, part } from './parts.ts';

/** All walks of faults in one strip by what they come to, and beside it the table that says the same. */
export function drawResults({ results }: CoverageState, act: Act): HTMLElement | false {
  if (results.length === 0) return false;
  return part(
    'What the faults come to',
    element('div', { class: 'strip' }, bar(results, 28)),
    element(
      'table',
      { class: 'results', 'aria-label': 'Walks of faults by what they come to' },
      head('Result', 'Walks', 'Share', 'By likelihood'),
      element('tbody', {}, ...results.map(one => resultRow(one, act))),
    ),
  );
}

function resultRow({ result, title, meaning, walks, percent, weightedPercent, choice }: ResultShare, act: Act) {
  return element(
    'tr',
    {},
    element(
      'th',
      { scope: 'row' },
      mark(result),
      element('strong', {}, title),
      element('span', { class: 'title' }, meaning),
    ),
    element('td', {}, opener(String(walks), `result ${result}`, choice, act, `walks, ${title}`)),
    element('td', {}, percent),
    element('td', {}, weightedPercent),
  );
}

/** Each figure with what it is a part of. */
export function drawFigures({ figures }: CoverageState, act: Act): HTMLElement {
  return part(
    'Figures',
    element(
      'table',
      { class: 'figures', 'aria-label': 'Figures' },
      head('Figure', 'Counted', 'Share', 'By likelihood'),
      element('tbody', {}, ...figures.map(one => figureRow(one, act))),
    ),
    element(
      'p',
      { class: 'remark' },
      'A walk is that of one fault, there all the time or now and then, from one way in. Faults detected and isolated are meant as IEEE Std 1522 means them.',
    ),
  );
}

function figureRow({ name, counted, of, percent, weighted, choice }: FigureRow, act: Act): HTMLElement {
  const isEmpty = choice === undefined || counted.startsWith('0 ');
  return element(
    'tr',
    {},
    element('th', { scope: 'row' }, name, element('span', { class: 'title' }, of)),
    element('td', {}, isEmpty ? counted : opener(counted, `figure ${name}`, choice, act, `${of}, ${name}`)),
    element('td', {}, percent),
    element('td', {}, weighted),
  );
}

function head(...titles: readonly string[]): HTMLElement {
  return element('thead', {}, element('tr', {}, ...titles.map(title => element('th', { scope: 'col' }, title))));
}

/** What is not in the tables, and why. */
export function drawNotWalked({ notWalked, unproved }: CoverageState, act: Act): HTMLElement | false {
  if (notWalked.length === 0 && !unproved) return false;
  return part(
    'Not walked, or not proved',
    unproved &&
      element(
        'p',
        {},
        button(unproved.text, 'unproved', () => act({ type: 'list', choice: unproved.choice }), { class: 'open' }),
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
