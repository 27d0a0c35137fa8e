import type { Test } from './common.ts';
import type { PartData } from './parts.ts';

/** The tests of conditions on which a part hangs by itself; those of its values stand with the values. */
export function ownTests(data: PartData): readonly Test[] {
  const found = (() => {
    switch (data.kind) {
      case 'battery':
      case 'supply':
        return [data.states?.crankingWhen, data.states?.chargingWhen];
      case 'motor':
        return [data.stalledWhen];
      case 'hall sensor':
        return [data.onWhen];
      default:
        return [];
    }
  })();
  return found.filter(test => test !== undefined);
}
