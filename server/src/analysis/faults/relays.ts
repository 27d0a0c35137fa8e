import type { Change, Tie } from './change.ts';
import { throughPart } from './extents.ts';
import type { Derived } from './fault.ts';
import type { PartOf } from './part.ts';
import { customary, weight } from './weights.ts';

/** Coil and contacts; a relay that trips without cause has welded contacts. */
export function relayFaults(part: PartOf<'relay'>): Derived[] {
  const { id, data } = part;
  const fix = (on: boolean): Change => ({ do: 'fix', name: id, on });
  const [, , common, open, closed] = data.terminals.map(t => part.own(t.text));
  const ties = [open, closed].flatMap((other): Tie[] =>
    common === undefined || other === undefined ? [] : [{ between: [common, other] }],
  );
  const found = [
    part.fault('coil open', 'has a broken coil', weight('relay', 'fails to trip', 3), () => [
      { do: 'remove', ids: [`${id} coil`] },
      fix(false),
    ]),
    part.fault(
      'coil shorted',
      'has a shorted coil',
      weight('relay', 'short'),
      extent => [...part.bridge(0, 1, extent!.value), fix(false)],
      throughPart,
    ),
    part.fault('stuck open', 'never pulls in', weight('relay', 'fails to trip', 3), () => [fix(false)]),
    part.fault('welded', 'never drops out', weight('relay', 'spurious trip'), () => [fix(true)]),
    part.fault(
      'resistive contact',
      'closes badly',
      weight('relay', 'fails to trip', 3),
      extent => ties.map(tie => ({ do: 'resist', tie, ohms: extent!.value })),
      part.badJoint(data.terminals.slice(2).map(t => t.text)),
    ),
  ];
  const suppression = data.suppressionOhms ? 'resistor' : data.suppressionDiode ? 'diode' : undefined;
  if (suppression) found.push(...suppressionFaults(part, suppression));
  return found;
}

function suppressionFaults(part: PartOf<'relay'>, kind: 'resistor' | 'diode'): Derived[] {
  const element = `${part.id} suppression ${kind}`;
  const broken = part.fault(`suppression ${kind} open`, `has a broken suppression ${kind}`, customary(0.1), () => [
    { do: 'remove', ids: [element] },
  ]);
  if (kind === 'resistor') return [broken];
  const shorted = part.fault(
    'suppression diode shorted',
    'has a shorted suppression diode',
    customary(0.2),
    extent => [...part.bridge(0, 1, extent!.value), { do: 'fix', name: part.id, on: false }],
    throughPart,
  );
  return [broken, shorted];
}
