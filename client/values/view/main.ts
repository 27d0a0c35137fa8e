import type { ValuesState } from '../../../server/src/protocol/values.ts';
import { choice } from '../../panel/view/choice.ts';
import { button, element, sentence } from '../../panel/view/element.ts';
import { keepFocus } from '../../panel/view/focus.ts';
import type { Kept, ToHost, ToView } from '../messages.ts';
import { drawList } from './list.ts';
import { narrow } from './narrow.ts';

declare function acquireVsCodeApi(): {
  postMessage(message: ToHost): void;
  getState(): Kept | undefined;
  setState(kept: Kept): void;
};

const editor = acquireVsCodeApi();
const main = document.getElementById('values')!;
const live = document.getElementById('said')!;

let kept: Kept | undefined = editor.getState();

function keep(change: Partial<Kept> & { uri: string }): void {
  kept = { find: '', ...kept, ...change };
  editor.setState(kept);
}

function draw(uri: string, state: ValuesState): void {
  keep({ uri, variant: state.variants.find(({ chosen }) => chosen)?.id });
  keepFocus(main, () => {
    main.replaceChildren(
      element('h1', {}, sentence(state.title)),
      element(
        'div',
        { class: 'choices' },
        choice('Machine', state.variants, id => editor.postMessage({ type: 'choose variant', id })),
        finder(uri),
        element(
          'div',
          { class: 'bar' },
          button('Copy as Markdown', 'copy markdown', () => editor.postMessage({ type: 'copy', form: 'markdown' })),
          button('Copy as CSV', 'copy csv', () => editor.postMessage({ type: 'copy', form: 'csv' })),
        ),
      ),
      ...state.sections.map(list => drawList(list, point => editor.postMessage({ type: 'show', point }))),
      element('p', { class: 'none', hidden: true }, 'No place has such a name.'),
      foot(state.notes),
    );
  });
  narrow(main, kept?.find ?? '');
}

/** Leaves only the places that have the text in a name. */
function finder(uri: string): HTMLElement {
  const input = element('input', {
    type: 'search',
    'data-key': 'find',
    value: kept?.find ?? '',
    placeholder: 'A1.14, X12, seat…',
    input: () => {
      keep({ uri, find: input.value });
      live.textContent = narrow(main, input.value);
    },
  });
  return element('label', {}, element('span', {}, 'Find a place'), input);
}

function foot(notes: readonly string[]): HTMLElement {
  return element(
    'footer',
    {},
    ...notes.map(note => element('p', {}, sentence(note))),
    element(
      'p',
      {},
      'What the system file gives for a machine without a fault. Local codes, the maker’s instructions and licensed practice come first.',
    ),
  );
}

window.addEventListener('message', ({ data }: MessageEvent<ToView>) => {
  main.setAttribute('aria-busy', String(data.type === 'working'));
  switch (data.type) {
    case 'draw':
      draw(data.uri, data.state);
      break;
    case 'working':
      if (main.childElementCount === 0)
        main.replaceChildren(element('p', { class: 'nothing' }, 'Working out the values…'));
      break;
    case 'say':
      main.replaceChildren(element('p', { class: 'nothing' }, sentence(data.text)), foot([]));
      break;
    case 'done':
      live.textContent = data.text;
  }
});
editor.postMessage({ type: 'ready' });
