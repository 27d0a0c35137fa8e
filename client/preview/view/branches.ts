import type { BranchText, Sheet } from '../../../server/src/protocol/preview.ts';
import { button, element, sentence } from '../../panel/view/element.ts';
import type { ToHost } from '../messages.ts';

type Act = (did: ToHost) => void;

/** Which reading leads where. Where the answers are the branches, they are given right here. */
export function drawBranches(sheet: Sheet, act: Act): HTMLElement | false {
  if (sheet.branches.length === 0) return false;
  const answer = isAnsweredInBranches(sheet)
    ? (text: string) => act({ type: 'answer', at: sheet.name, text })
    : undefined;
  return element(
    'table',
    { class: answer ? 'branches question' : 'branches' },
    element('caption', {}, answer ? 'Answer, and where it leads' : 'Leads to'),
    element('tbody', {}, ...sheet.branches.map(branch => drawBranch(branch, answer, act))),
  );
}

export function isAnsweredInBranches({ question, branches, isAtHand }: Sheet): boolean {
  if (!isAtHand || question.ask !== 'choice') return false;
  return question.choices.every(choice => branches.some(({ key }) => key === choice));
}

function drawBranch(
  { key, range, to, title, kind }: BranchText,
  answer: ((text: string) => void) | undefined,
  act: Act,
) {
  const target =
    kind === 'missing'
      ? element('span', { class: 'missing' }, to === undefined ? 'nothing yet' : `${to}, which is not there`)
      : button(title, `branch ${key}`, () => act({ type: 'show', name: to ?? '' }), { class: 'name' });
  return element(
    'tr',
    {},
    element(
      'th',
      { scope: 'row' },
      answer ? button(key, `answer ${key}`, () => answer(key)) : sentence(key),
      range !== undefined && element('span', { class: 'range' }, range),
    ),
    element('td', {}, target, kind === 'ending' && element('span', { class: 'note' }, 'ending')),
  );
}
