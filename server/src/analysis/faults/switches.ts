import type { Contact } from '../../model/parts.ts';
import type { Change } from './change.ts';
import { drifted, throughPart } from './extents.ts';
import type { Derived } from './fault.ts';
import type { PartOf } from './part.ts';
import { customary, weight } from './weights.ts';

/** Each contact of a switch by itself. */
export function switchFaults(part: PartOf<'switch'>): Derived[] {
  const { contacts, contactOhms } = part.data;
  return contacts.flatMap((contact: Contact) => {
    const [a, b] = [contact.a.text, contact.b.text];
    const named = contacts.length > 1 ? `${a} to ${b} ` : '';
    const which = contacts.length > 1 ? `contact ${a} to ${b} ` : '';
    const among = contacts.length;
    const tie = tieOf(part, a, b);
    return [
      part.fault(`${named}open`, `${which}never closes`, weight('toggle switch', 'open', among), () =>
        tie ? [{ do: 'cut', tie }] : [],
      ),
      // A second contact beside one that is closed anyway would halve its resistance, so it takes the place of that one.
      part.fault(`${named}stuck closed`, `${which}never opens`, weight('toggle switch', 'sticking', among), () =>
        tie ? [{ do: 'cut', tie }, ...part.bridge(a, b, contactOhms?.nominal ?? 0)] : [],
      ),
      part.fault(
        `${named}resistive contact`,
        `${which}closes badly`,
        customary(0.46 / among),
        extent => (tie ? [{ do: 'resist', tie, ohms: extent!.value }] : []),
        part.badJoint([a, b]),
      ),
    ];
  });
}

function tieOf(part: PartOf<'switch'>, a: string, b: string) {
  const [from, to] = [part.own(a), part.own(b)];
  return from === undefined || to === undefined ? undefined : { between: [from, to] as const };
}

/** Buttons that stay, resistors that break or drift, and the one line to them. */
export function codedFaults(part: PartOf<'coded switches'>): Derived[] {
  const { buttons, idleOhms } = part.data;
  const resistors = [...buttons.values()].filter(b => typeof b.is === 'object').length + (idleOhms ? 1 : 0);
  const found: Derived[] = [
    part.fault('open', 'is broken inside, whatever is held', weight('push-button', 'open'), () => part.letGo(0)),
    part.fault(
      'shorted',
      'is bridged inside',
      weight('push-button', 'short'),
      e => part.bridge(0, 1, e!.value),
      throughPart,
    ),
  ];
  for (const button of buttons.values()) {
    if (button.is === 'open') continue;
    const ohms = button.is === 'short' ? 0 : button.is.nominal;
    const stays = weight('push-button', 'sticking', buttons.size);
    const element = `${part.id} ${button.id}`;
    const take: Change = { do: 'remove', ids: [element] };
    found.push(
      part.fault(`stuck ${button.id}`, `button ${button.id} stays held`, stays, () => [
        take,
        ...part.bridge(0, 1, ohms),
      ]),
    );
    if (button.is === 'short') continue;
    found.push(...resistorFaults(part, button.id, `resistor of button ${button.id}`, resistors));
  }
  if (idleOhms) found.push(...resistorFaults(part, 'idle', 'idle resistor', resistors));
  return found;
}

function resistorFaults(part: PartOf<'coded switches'>, name: string, words: string, among: number): Derived[] {
  const element = `${part.id} ${name}`;
  return [
    part.fault(`${name} open`, `${words} is broken`, weight('film resistor', 'open', among), () => [
      { do: 'remove', ids: [element] },
    ]),
    part.fault(`${name} shorted`, `${words} is bridged`, weight('film resistor', 'short', among), () => [
      { do: 'scale', nodes: part.nodes, factor: 0, id: element },
    ]),
    part.fault(
      `${name} drifted`,
      `${words} has moved away from its value`,
      weight('film resistor', 'parameter change', among),
      extent => part.scale(extent, element),
      drifted,
    ),
  ];
}
