import type { CoverageState } from '../../../server/src/protocol/coverage.ts';
import { choice } from '../../panel/view/choice.ts';
import { element, sentence } from '../../panel/view/element.ts';
import { keepFocus } from '../../panel/view/focus.ts';
import type { Kept, ToHost, ToView } from '../messages.ts';
import { drawEnds } from './ends.ts';
import { walkByKeys } from './grid.ts';
import { patternSheet } from './marks.ts';
import { drawMatrix } from './matrix.ts';
import { drawFigures, drawNotWalked, drawResults } from './shares.ts';
import { drawWalks } from './walks.ts';

declare function acquireVsCodeApi(): { postMessage(message: ToHost): void; setState(kept: Kept): void };

const editor = acquireVsCodeApi();
const main = document.getElementById('coverage')!;
const live = document.getElementById('said')!;
main.before(patternSheet());

/** What was done last while its answer is awaited. */
let did: ToHost['type'] | undefined;
/** The key of what opened the list, which has the focus again when it is closed. */
let opener: string | undefined;
/** The cell of the matrix that Tab comes to. */
let cell: string | undefined;

function act(done: ToHost): void {
  did = done.type;
  if (done.type === 'list') opener = keyOf(document.activeElement);
  editor.postMessage(done);
}

function draw(state: CoverageState): void {
  const scroll = main.querySelector('.grid');
  const [left, top] = [scroll?.scrollLeft ?? 0, scroll?.scrollTop ?? 0];
  const unfolded = [...main.querySelectorAll<HTMLElement>('details[open] > summary')].map(keyOf);
  cell = keyOf(main.querySelector('.matrix [tabindex="0"]')) ?? cell;
  const table = drawMatrix(state, act);
  const parts = [head(state), drawResults(state, act), drawFigures(state, act), drawEnds(state, act), table];
  keepFocus(main, () => {
    main.replaceChildren(
      ...parts.filter(one => one !== false),
      ...[drawNotWalked(state, act)].filter(one => one !== false),
      foot(),
      ...(state.list ? [drawWalks(state.list, act)] : []),
    );
    const grid = main.querySelector<HTMLTableElement>('.matrix');
    if (grid) walkByKeys(grid, cell);
  });
  for (const one of main.querySelectorAll<HTMLElement>('details > summary'))
    (one.parentElement as HTMLDetailsElement).open = unfolded.includes(keyOf(one));
  main.querySelector('.grid')?.scrollTo(left, top);
  main.setAttribute('aria-busy', String(state.isEarlier));
  if (did === 'list') moveToWalks();
  if (did === 'close list') elementOf(opener)?.focus();
  if (did !== undefined && did !== 'ready')
    live.textContent = did === 'find' || did === 'bad only' ? state.matrix.left : state.said;
  did = undefined;
}

/** The list has the focus, and what opened it stays in sight above it. */
function moveToWalks(): void {
  document.getElementById('walks-title')?.focus({ preventScroll: true });
  const list = document.getElementById('walks');
  const hidden = (elementOf(opener)?.getBoundingClientRect().bottom ?? 0) - (list?.getBoundingClientRect().top ?? 0);
  if (list && hidden > 0) window.scrollBy(0, hidden + 16);
}

function head({ title, variants, summary, isEarlier }: CoverageState): HTMLElement {
  return element(
    'header',
    {},
    element('h1', {}, title),
    element(
      'div',
      { class: 'choices' },
      choice('Machine', variants, id => act({ type: 'choose variant', id })),
    ),
    isEarlier && element('p', { class: 'earlier' }, 'Of an earlier text; every fault is being walked anew…'),
    element('p', { class: 'summary' }, summary),
  );
}

function foot(): HTMLElement {
  return element(
    'footer',
    {},
    'Faults that follow from the system file, walked one at a time. Local codes, the maker’s instructions and licensed practice come first.',
  );
}

function keyOf(one: Element | null): string | undefined {
  return one instanceof HTMLElement ? one.dataset.key : undefined;
}

function elementOf(key: string | undefined): HTMLElement | undefined {
  return [...main.querySelectorAll<HTMLElement>('[data-key]')].find(one => one.dataset.key === key);
}

main.addEventListener('keydown', event => {
  if (event.key === 'Escape' && document.getElementById('walks')) act({ type: 'close list' });
});
window.addEventListener('message', ({ data }: MessageEvent<ToView>) => {
  if (data.type === 'draw') {
    editor.setState({ uri: data.uri, look: data.state.look });
    draw(data.state);
  } else main.replaceChildren(element('p', { class: 'nothing' }, sentence(data.text)), foot());
});
editor.postMessage({ type: 'ready' });
