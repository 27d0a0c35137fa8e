import { existsIn } from '../../model/common.ts';
import type { Derived } from './fault.ts';
import type { PartOf } from './part.ts';
import { customary, weight } from './weights.ts';

/** Pins that lost their contact and drivers that no longer do as they are told. */
export function moduleFaults(part: PartOf<'module'>): Derived[] {
  const { data, variant } = part;
  const lost = new Map([
    [data.powered?.pin.text, 'supply'],
    [data.ground?.text, 'ground'],
  ]);
  const pins = [...data.pins.values()].filter(pin => existsIn(pin, variant));
  return pins.flatMap(pin => {
    const role = lost.get(pin.id);
    const words = pin.name ? ` (${pin.name})` : '';
    const contact = weight('connector', 'open', data.pins.size);
    const open = role
      ? part.fault(`${role} lost`, `has lost its ${role} at pin ${pin.id}`, contact, () => part.cut(pin.id))
      : ofPin(part, pin.id, 'open', `has an open pin ${pin.id}${words}`, contact, () => part.cut(pin.id));
    const found = [{ ...open, mendedBy: [part.id, `${part.id}.${pin.id}`] }];
    if (pin.output !== 'low side' && pin.output !== 'high side') return found;
    const name = `${part.id}.${pin.id}`;
    const driver = (on: boolean) =>
      ofPin(
        part,
        pin.id,
        `stuck ${on ? 'on' : 'off'}`,
        `holds pin ${pin.id}${words} ${on ? 'on' : 'off'} whatever it is told`,
        customary(0.5),
        () => [{ do: 'fix', name, on }],
      );
    return [...found, driver(false), driver(true)];
  });
}

function ofPin(
  part: PartOf<'module'>,
  pin: string,
  kind: string,
  title: string,
  how: Parameters<PartOf<'module'>['fault']>[2],
  changes: Derived['changes'],
): Derived {
  return { ...part.fault(kind, title, how, changes), id: `${part.id}.${pin} ${kind}`, where: `pin ${pin}` };
}
