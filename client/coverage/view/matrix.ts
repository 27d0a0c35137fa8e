import type { CoverageState, EndCell, Matrix, OwnerRow } from '../../../server/src/protocol/coverage.ts';
import { button, element } from '../../panel/view/element.ts';
import { bar } from './bar.ts';
import { classOf } from './marks.ts';
import { type Act, part } from './parts.ts';

/** Faults by ends. Arrows go from cell to cell, Enter opens what a cell counts. */
export function drawMatrix({ matrix, look }: CoverageState, act: Act): HTMLElement {
  const isEmpty = matrix.rows.length === 0;
  return part(
    'Faults by endings',
    finder(matrix, look, act),
    isEmpty ? element('p', { class: 'none' }, 'No fault is left.') : table(matrix, act),
    !isEmpty &&
      element(
        'p',
        { class: 'remark' },
        'A number counts walks that end there, and the bar under it tells what they come to. ◦ other machines or answers lead there, too. ? nothing rules out a bad end there.',
      ),
  );
}

function finder({ left }: Matrix, { find = '', badOnly = false }: CoverageState['look'], act: Act): HTMLElement {
  const input = element('input', {
    type: 'search',
    'data-key': 'find',
    value: find,
    placeholder: 'W41, seat, open…',
    input: () => act({ type: 'find', text: input.value }),
  });
  const box = element('input', {
    type: 'checkbox',
    'data-key': 'bad only',
    change: () => act({ type: 'bad only', on: box.checked }),
  });
  box.checked = badOnly;
  return element(
    'div',
    { class: 'finder' },
    element('label', {}, element('span', {}, 'Find a fault'), input),
    element('label', { class: 'switch' }, box, 'Only those that end badly, or may'),
    element('p', { class: 'left' }, left),
  );
}

function table(matrix: Matrix, act: Act): HTMLElement {
  return element(
    'div',
    { class: 'grid' },
    element(
      'table',
      { role: 'grid', class: 'matrix', 'aria-label': 'Faults by endings' },
      element(
        'thead',
        {},
        element(
          'tr',
          {},
          element('th', { scope: 'col', class: 'corner' }, 'Fault'),
          ...matrix.columns.map(({ at, title }) =>
            element(
              'th',
              { scope: 'col' },
              button(at, `column ${at}`, () => act({ type: 'show', at }), { class: 'name', title }),
            ),
          ),
        ),
      ),
      ...matrix.rows.map(row => group(row, matrix, act)),
    ),
  );
}

function group(row: OwnerRow, { columns }: Matrix, act: Act): HTMLElement {
  const { owner, title, cells, walks, faults } = row;
  const isGood = owner === '';
  const name = isGood ? 'no fault' : owner;
  const head = isGood
    ? element('span', { 'data-key': 'row no fault', tabindex: '-1' }, name)
    : element(
        'button',
        {
          type: 'button',
          class: 'name fold',
          'data-key': `row ${owner}`,
          'aria-expanded': String(faults !== undefined),
          'aria-label': `${owner} ${title}, ${walks} walks`,
          click: () => act({ type: 'unfold', owner }),
        },
        name,
      );
  return element(
    'tbody',
    {},
    line(
      element('th', { scope: 'row', class: isGood ? 'good' : '' }, head, element('span', { class: 'title' }, title)),
      cells,
      name,
      columns.length,
      act,
    ),
    ...(faults ?? []).map(({ fault, title: told, cells: own }) =>
      line(
        element(
          'th',
          { scope: 'row', class: 'fault', title: told },
          element('span', { 'data-key': `row fault ${fault}`, tabindex: '-1' }, fault),
        ),
        own,
        fault,
        columns.length,
        act,
      ),
    ),
  );
}

function line(head: HTMLElement, cells: readonly EndCell[], row: string, many: number, act: Act): HTMLElement {
  const each = Array.from({ length: many }, (_, column) => cells.find(one => one.column === column));
  return element('tr', {}, head, ...each.map((cell, column) => cellOf(cell, `cell ${row} ${column}`, act)));
}

function cellOf(cell: EndCell | undefined, key: string, act: Act): HTMLElement {
  if (!cell) return element('td', { 'data-key': key, tabindex: '-1' });
  const { walks, result, isOpen, isListed, words, choice } = cell;
  const text = walks > 0 ? String(walks) : isOpen ? '?' : '◦';
  return element(
    'td',
    { class: classOf(result) },
    element(
      'button',
      {
        type: 'button',
        class: walks > 0 ? 'cell' : 'cell may',
        'data-key': key,
        'aria-label': words,
        title: words,
        'aria-current': isListed && 'true',
        click: () => act({ type: 'list', choice }),
      },
      text,
      walks > 0 && isOpen && element('span', { class: 'may' }, '?'),
      walks > 0 && bar([{ result, share: 1 }], 5),
    ),
  );
}
