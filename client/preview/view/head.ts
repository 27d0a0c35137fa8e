import type { Option, PreviewState } from '../../../server/src/protocol/preview.ts';
import type { ToHost } from '../messages.ts';
import { cautionList } from './cautions.ts';
import { element, sentence } from './element.ts';

type Act = (did: ToHost) => void;

/** What holds for the whole procedure: its title, the machine, the way in, the sample walk, cautions and tools. */
export function drawHead(state: PreviewState, act: Act): HTMLElement {
  const { variants, starts, samples, played } = state;
  const noSample = { id: '', label: 'readings typed by hand', chosen: played === undefined };
  return element(
    'header',
    {},
    element('h1', {}, sentence(state.title)),
    element(
      'div',
      { class: 'choices' },
      choice('Machine', variants, id => act({ type: 'choose variant', id })),
      choice('Starts from', starts, id => act({ type: 'choose start', id })),
      choice('Readings', samples.length > 0 ? [noSample, ...samples] : [], id => act({ type: 'choose sample', id })),
    ),
    cautionList(state.cautions),
    state.tools.length > 0 && element('p', { class: 'tools' }, element('span', {}, 'Tools'), state.tools.join(', ')),
  );
}

function choice(label: string, options: readonly Option[], choose: (id: string) => void): HTMLElement | false {
  if (options.length < 2) return options.length === 1 && single(label, options[0]!.label);
  const select = element('select', { 'data-key': label, change: () => choose(select.value) });
  for (const { id, label: text, chosen } of options) {
    select.append(element('option', { value: id, selected: chosen }, text));
  }
  return element('label', {}, element('span', {}, label), select);
}

/** With one thing to choose from there is nothing to choose. */
function single(label: string, text: string): HTMLElement {
  return element('p', {}, element('span', {}, label), text);
}
