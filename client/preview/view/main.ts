import type { PreviewState } from '../../../server/src/protocol/preview.ts';
import { element, sentence } from '../../panel/view/element.ts';
import { keepFocus } from '../../panel/view/focus.ts';
import type { ToHost, ToView } from '../messages.ts';
import { drawHead } from './head.ts';
import { drawHistory } from './history.ts';
import { drawPlayed } from './played.ts';
import { drawSheet } from './sheet.ts';

declare function acquireVsCodeApi(): { postMessage(message: ToHost): void; setState(kept: unknown): void };

const editor = acquireVsCodeApi();
const main = document.getElementById('preview')!;
const live = document.getElementById('said')!;

/** Set while the answer to something that somebody did here is awaited; then the focus goes to what is asked next. */
let hasActed = false;
let standing: string | undefined;

function act(did: ToHost): void {
  hasActed = true;
  editor.postMessage(did);
}

function draw(state: PreviewState): void {
  const hasMoved = hasActed && standing !== undefined && standing !== state.sheet.name;
  const played = drawPlayed(state, act);
  keepFocus(main, () => {
    main.replaceChildren(
      drawHead(state, act),
      drawHistory(state, act),
      ...(played ? [played] : []),
      drawSheet(state, act),
      foot(),
    );
  });
  if (hasMoved) moveOn();
  if (hasActed) live.textContent = state.said.replaceAll('`', '');
  hasActed = false;
  standing = state.sheet.name;
}

/** What is asked next is in sight and has the focus; at an ending its title has. */
function moveOn(): void {
  const sheet = document.getElementById('sheet')!;
  const { top, bottom } = sheet.getBoundingClientRect();
  if (top < 0 || bottom > window.innerHeight) sheet.scrollIntoView({ block: 'start' });
  const next =
    sheet.querySelector<HTMLElement>('.question input, .question button') ?? document.getElementById('title')!;
  next.focus({ preventScroll: true });
}

function foot(): HTMLElement {
  return element(
    'footer',
    {},
    'A preview of the procedure as written. Local codes, the maker’s instructions and licensed practice come first.',
  );
}

// A key that is held down would answer step after step.
main.addEventListener('keydown', event => {
  if (event.repeat && event.key === 'Enter') event.preventDefault();
});
window.addEventListener('message', ({ data }: MessageEvent<ToView>) => {
  if (data.type === 'draw') {
    editor.setState({ uri: data.uri, walk: data.state.walk });
    draw(data.state);
  } else main.replaceChildren(element('p', { class: 'nothing' }, sentence(data.text)), foot());
});
editor.postMessage({ type: 'ready' });
