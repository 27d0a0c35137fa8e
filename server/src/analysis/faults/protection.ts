import type { Derived } from './fault.ts';
import type { PartOf } from './part.ts';
import { customary, weight } from './weights.ts';

export function protectionFaults(part: PartOf<'fuse' | 'breaker' | 'fusible link'>): Derived[] {
  if (part.data.kind === 'breaker')
    return [
      part.fault('tripped', 'has tripped and stays open', weight('breaker', 'opens unasked'), () => part.letGo(0)),
    ];
  // The table has fuses that open too early; that one is found blown after an overload is as usual as any other fault.
  return [part.fault('blown', 'is blown', customary(1), () => part.letGo(0))];
}
