import type { PartData } from '../../model/parts.ts';
import { drifted, halfTheTurns, throughPart } from './extents.ts';
import type { Derived } from './fault.ts';
import type { PartOf, WiredPart } from './part.ts';
import { customary, type Weight, weight } from './weights.ts';

type Load = 'resistor' | 'heater' | 'coil' | 'motor' | 'pickup' | 'inductor' | 'lamp';

/** Two terminals with a resistance between them. */
export function loadFaults(part: PartOf<Load>): Derived[] {
  switch (part.data.kind) {
    case 'resistor':
      return [
        broken(part, weight('film resistor', 'open')),
        bridged(part, weight('film resistor', 'short')),
        moved(part, 'drifted', 'has moved away from its value', weight('film resistor', 'parameter change')),
      ];
    case 'heater':
      return [broken(part, weight('wirewound resistor', 'open')), bridged(part, weight('wirewound resistor', 'short'))];
    case 'lamp':
      return [
        broken(part, weight('lamp', 'no illumination')),
        // The table has none: a filament that falls on its other leg is rare.
        bridged(part, customary(0.1)),
      ];
    case 'motor':
      return [broken(part, customary(1)), turns(part, customary(0.5))];
    default:
      // The table's shorts of solenoids are shorted turns; that so few are open is at odds with practice, which sees both.
      return [broken(part, customary(1)), turns(part, weight('solenoid', 'short'))];
  }
}

export function broken<D extends PartData>(part: WiredPart<D>, how: Weight): Derived {
  return part.fault('open', 'is broken inside', how, () => part.letGo(0));
}

export function bridged<D extends PartData>(part: WiredPart<D>, how: Weight): Derived {
  return part.fault('shorted', 'is shorted inside', how, extent => part.bridge(0, 1, extent!.value), throughPart);
}

export function moved<D extends PartData>(part: WiredPart<D>, kind: string, words: string, how: Weight): Derived {
  return part.fault(kind, words, how, extent => part.scale(extent), drifted);
}

function turns(part: PartOf<Load>, how: Weight): Derived {
  return part.fault('shorted turns', 'has shorted turns', how, extent => part.scale(extent), halfTheTurns);
}
