import { cellsOf } from '../lower/parts/battery.ts';
import { cellLost, flat, sagging, worn } from './extents.ts';
import type { Derived, Extent } from './fault.ts';
import type { PartOf } from './part.ts';
import { customary, weight } from './weights.ts';

export function supplyFaults(part: PartOf<'battery' | 'supply'>): Derived[] {
  const { id, data } = part;
  const gives = (extent: Extent | undefined) => {
    const { dimension, value } = extent!;
    return dimension === 'voltage'
      ? [{ do: 'source', id, volts: value } as const]
      : [{ do: 'source', id, factor: Math.max(0, 1 + value) } as const];
  };
  if (data.kind === 'supply') {
    return [
      part.fault('dead', 'gives nothing', customary(1), () => part.letGo(0)),
      { ...part.fault('low', 'gives too little', customary(0.5), gives, sagging), givesVolts: true },
    ];
  }
  return [
    { ...part.fault('flat', 'is flat', weight('lead-acid battery', 'degraded', 2), gives, flat), givesVolts: true },
    part.fault(
      'weak',
      'drops its voltage under load',
      weight('lead-acid battery', 'degraded', 2),
      extent => [{ do: 'in series', id, ohms: extent!.value }],
      worn,
    ),
    part.fault(
      'cell shorted',
      'has a shorted cell',
      weight('lead-acid battery', 'short'),
      gives,
      cellLost(cellsOf(data)),
    ),
    part.fault('open', 'is broken inside', weight('lead-acid battery', 'intermittent'), () => part.letGo(0)),
  ];
}
