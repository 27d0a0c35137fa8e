import type { CoverageLook } from '../../server/src/protocol/coverage.ts';
import type { ToHost } from './messages.ts';

/** How it is looked at after something that somebody did; the server says what of it holds. */
export function changed(look: CoverageLook, did: ToHost): CoverageLook {
  switch (did.type) {
    case 'choose variant':
      return { ...look, variant: did.id };
    case 'find':
      return { ...look, find: did.text };
    case 'bad only':
      return { ...look, badOnly: did.on };
    case 'unfold':
      return { ...look, unfolded: toggled(look.unfolded ?? [], did.owner) };
    case 'list':
      return { ...look, list: did.choice };
    case 'list all':
      return { ...look, list: look.list && { ...look.list, all: true } };
    case 'close list':
      return { ...look, list: undefined };
    default:
      return look;
  }
}

function toggled(all: readonly string[], one: string): string[] {
  return all.includes(one) ? all.filter(other => other !== one) : [...all, one];
}
