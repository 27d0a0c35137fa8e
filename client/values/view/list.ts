import type { ValuesLine, ValuesList } from '../../../server/src/protocol/values.ts';
import { button, element, sentence } from '../../panel/view/element.ts';

type Show = (point: string) => void;

/** Voltages or resistances: a group of rows for each place, headed by it. */
export function drawList({ title, remark, rows }: ValuesList, show: Show): HTMLElement {
  const heading = (text: string) => element('th', { scope: 'col' }, text);
  return element(
    'section',
    { 'aria-labelledby': title },
    element('h2', { id: title }, title),
    element('p', { class: 'remark' }, sentence(remark)),
    rows.length > 0 &&
      element(
        'table',
        { 'aria-labelledby': title },
        element(
          'thead',
          {},
          element('tr', {}, heading('Place'), heading('State'), heading('Reading'), heading('Nominal')),
        ),
        ...rows.map(row => drawRow(row, show)),
      ),
  );
}

function drawRow({ point, leads, title, also, readings }: ValuesLine, show: Show): HTMLElement {
  const place = element(
    'th',
    { scope: 'rowgroup', rowspan: String(readings.length) },
    button(leads, `show ${leads}`, () => show(point), { class: 'name', title: 'Show it in the text' }),
    title !== '' && element('span', { class: 'title' }, sentence(title)),
    also.length > 0 && element('span', { class: 'also' }, `also ${also.join(', ')}`),
  );
  const lines = readings.map(({ state, range, nominal }, i) =>
    element(
      'tr',
      {},
      i === 0 && place,
      element('td', { class: 'state' }, ...eachWhole(state)),
      element('td', { class: 'value' }, range),
      element('td', { class: 'value nominal' }, nominal),
    ),
  );
  const names = [leads, title, ...also].join('\n').toLowerCase();
  return element('tbody', { 'data-names': names }, ...lines);
}

/** Several states in one cell break between them, not within one. */
function eachWhole(state: string): (HTMLElement | string)[] {
  const [first = '', ...others] = state.split(', ');
  return [element('span', {}, first), ...others.flatMap(one => [', ', element('span', {}, one)])];
}
