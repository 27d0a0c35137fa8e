import type { PreviewWalk } from '../../server/src/protocol/preview.ts';
import type { ToHost } from './messages.ts';

export const freshWalk: PreviewWalk = { answers: [] };

/** The walk after something that somebody did; the server says how much of it holds. */
export function changed(walk: PreviewWalk, did: ToHost): PreviewWalk {
  const { shown: _, ...rest } = walk;
  switch (did.type) {
    case 'answer':
      return { ...rest, answers: [...walk.answers, { at: did.at, text: did.text }] };
    case 'back':
      return { ...rest, answers: walk.answers.slice(0, -1) };
    case 'back to':
      return { ...rest, answers: walk.answers.slice(0, did.index) };
    case 'start over':
      return { ...rest, answers: [] };
    case 'choose variant':
      // What was answered is kept where it still leads on.
      return { ...rest, variant: did.id };
    case 'choose start':
      return { ...rest, start: did.id, from: undefined, answers: [] };
    case 'choose sample':
      return did.id === '' ? { ...rest, sample: undefined } : { sample: did.id, answers: [] };
    case 'start here':
      return { ...rest, from: did.name, sample: undefined, answers: [] };
    case 'show':
      return { ...walk, shown: did.name };
    default:
      return walk;
  }
}
