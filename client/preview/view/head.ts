import type { PreviewState } from '../../../server/src/protocol/preview.ts';
import { choice } from '../../panel/view/choice.ts';
import { element, sentence } from '../../panel/view/element.ts';
import type { ToHost } from '../messages.ts';
import { cautionList } from './cautions.ts';

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
