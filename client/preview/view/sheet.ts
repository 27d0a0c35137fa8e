import type { PreviewState, QuestionText, Refusal, Row, Sheet } from '../../../server/src/protocol/preview.ts';
import { button, element, sentence } from '../../panel/view/element.ts';
import type { ToHost } from '../messages.ts';
import { drawBranches, isAnsweredInBranches } from './branches.ts';
import { cautionList } from './cautions.ts';

type Act = (did: ToHost) => void;

/** The step or ending at hand, or another one that is looked at. */
export function drawSheet(state: PreviewState, act: Act): HTMLElement {
  const { sheet, refused, atHand, history } = state;
  return element(
    'section',
    { id: 'sheet', class: `sheet ${sheet.kind}`, 'aria-labelledby': 'title' },
    element(
      'div',
      { class: 'over' },
      element('p', {}, over(sheet)),
      button('Back', 'back', () => act({ type: 'back' }), { class: 'again', disabled: history.length === 0 }),
      button('Start over', 'start over', () => act({ type: 'start over' }), {
        class: 'again',
        disabled: history.length === 0,
      }),
    ),
    element(
      'h2',
      { id: 'title', tabindex: '-1' },
      button(sheet.title, 'title', () => act({ type: 'show', name: sheet.name }), {
        class: 'name',
        title: 'Show it in the text',
      }),
    ),
    !sheet.isAtHand && elsewhere(sheet, atHand, act),
    cautionList(sheet.cautions),
    sheet.rows.length > 0 && element('dl', {}, ...sheet.rows.flatMap(drawRow)),
    sheet.isAtHand && drawQuestion(sheet, refused !== undefined, act),
    sheet.isAtHand && refused !== undefined && drawRefusal(refused, sheet, act),
    drawBranches(sheet, act),
    sheet.continuesIn !== undefined &&
      button('Go on in its preview', 'continue', () => act({ type: 'continue' }), { class: 'primary' }),
    sheet.isFinal && sheet.kind === 'ending' && element('p', { class: 'over-here' }, 'The procedure ends here.'),
  );
}

function over({ kind, name, minutes }: Sheet): string {
  if (kind === 'nowhere') return 'The walk stops';
  const what = kind === 'step' ? 'Step' : 'Ending';
  return `${what} ${name}${minutes === undefined ? '' : `, ${minutes} min`}`;
}

function elsewhere({ kind, name }: Sheet, atHand: PreviewState['atHand'], act: Act): HTMLElement {
  return element(
    'div',
    { class: 'elsewhere' },
    element('p', {}, 'The walk stands at ', element('em', {}, sentence(atHand.title)), '.'),
    element(
      'div',
      { class: 'bar' },
      button('Go back there', 'back to hand', () => act({ type: 'show', name: atHand.name })),
      kind === 'step' && button('Walk from here', 'from here', () => act({ type: 'start here', name })),
    ),
  );
}

function drawRow({ label, entries }: Row): HTMLElement[] {
  const values = entries.map(({ text, isProse, note, mark }) =>
    element(
      'dd',
      { class: mark ?? '' },
      element('span', { class: isProse ? '' : 'value' }, sentence(text)),
      note !== undefined && element('span', { class: 'note' }, sentence(note)),
      mark === 'done' && element('span', { class: 'note' }, 'already so'),
    ),
  );
  return [element('dt', {}, label), ...values];
}

function drawQuestion(sheet: Sheet, isRefused: boolean, act: Act): HTMLElement | false {
  const { name: at, question } = sheet;
  const answer = (text: string) => act({ type: 'answer', at, text });
  switch (question.ask) {
    case 'reading':
      return readingForm(at, question, isRefused, answer);
    case 'choice':
      return (
        !isAnsweredInBranches(sheet) &&
        element(
          'div',
          { class: 'question', role: 'group', 'aria-label': 'Answer' },
          ...question.choices.map(text => button(text, `answer ${at} ${text}`, () => answer(text))),
        )
      );
    case 'go on':
      return element(
        'div',
        { class: 'question' },
        button(question.label, `go on ${at}`, () => answer(''), { class: 'primary' }),
      );
    case 'nothing':
      return false;
  }
}

function readingForm(
  at: string,
  { label, example }: QuestionText & { ask: 'reading' },
  isRefused: boolean,
  answer: (text: string) => void,
) {
  const input = element('input', {
    type: 'text',
    id: 'reading',
    'data-key': `reading ${at}`,
    placeholder: example,
    autocomplete: 'off',
    spellcheck: 'false',
    'aria-describedby': isRefused && 'refused',
    'aria-invalid': isRefused && 'true',
  });
  const send = (event: Event) => {
    event.preventDefault();
    answer(input.value);
  };
  return element(
    'form',
    { class: 'question', submit: send },
    element('label', { for: 'reading' }, label),
    input,
    element('button', { type: 'submit', class: 'primary', 'data-key': 'enter' }, 'Enter'),
    element('button', { type: 'button', 'data-key': 'over limit', click: () => answer('OL') }, 'OL'),
  );
}

function drawRefusal({ message, detail, help, suggestion }: Refusal, { name: at }: Sheet, act: Act): HTMLElement {
  return element(
    'div',
    { id: 'refused', class: 'refused' },
    element('p', {}, sentence(message)),
    detail !== undefined && element('p', { class: 'detail' }, sentence(detail)),
    help !== undefined && element('p', { class: 'detail' }, sentence(help)),
    suggestion !== undefined &&
      button(`Take it as ${suggestion}`, 'suggestion', () => act({ type: 'answer', at, text: suggestion })),
  );
}
