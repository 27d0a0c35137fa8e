import type { BranchText } from '../../../server/src/protocol/preview.ts';
import type { ToHost } from '../messages.ts';
import { element, sentence } from './element.ts';

/** Which reading leads where. */
export function drawBranches(branches: readonly BranchText[], act: (did: ToHost) => void): HTMLElement | false {
  if (branches.length === 0) return false;
  return element(
    'table',
    { class: 'branches' },
    element('caption', {}, 'Leads to'),
    element('tbody', {}, ...branches.map(branch => drawBranch(branch, act))),
  );
}

function drawBranch({ key, to, title, kind }: BranchText, act: (did: ToHost) => void): HTMLElement {
  const target =
    kind === 'missing'
      ? element('span', { class: 'missing' }, to === undefined ? 'nothing yet' : `${to}, which is not there`)
      : element(
          'button',
          {
            type: 'button',
            class: 'name',
            'data-key': `branch ${key}`,
            click: () => act({ type: 'show', name: to ?? '' }),
          },
          sentence(title),
        );
  return element(
    'tr',
    { class: kind },
    element('th', { scope: 'row' }, sentence(key)),
    element('td', {}, target, kind === 'ending' && element('span', { class: 'note' }, 'ending')),
  );
}
