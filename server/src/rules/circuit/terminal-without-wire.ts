import { existsIn } from '../../model/common.ts';
import { partIn } from '../../model/parts.ts';
import type { Rule } from '../rule.ts';
import { inVariants, joined, name } from '../wording.ts';

const system = (extra: string, mark = '') => `#- /lamp.system.yaml
format: 1
system: lamp
parts:
  G1: { kind: battery, voltage: 12.6 V ± 0.4 V, internal resistance: 10 mΩ }
  E1: { kind: resistor, resistance: 10 Ω ± 5 % }
${mark}grounds:
  GND-1: { title: Frame }
wires:
  - W1: G1.+ to E1.1, red
${extra}  - W3: G1.- to GND-1, black
`;

/** A relay's spare contact and a module's spare pin are normal; a part with two terminals, also a switch, needs both. */
const twoEnded = new Set([
  'battery',
  'supply',
  'fuse',
  'breaker',
  'fusible link',
  'resistor',
  'heater',
  'coil',
  'motor',
  'lamp',
  'coded switches',
]);

export const terminalWithoutWire: Rule = {
  id: 'terminal-without-wire',
  severity: 'warning',
  group: 'circuit',
  on: 'system',
  title: 'A part with one terminal in the air',
  explanation: `
A part with two terminals does something only when both are wired. One of them has no wire in the list, so no current ever flows in the part and
every reading behind it is that of an open circuit.`,
  bad: system('', '# ^^ warning terminal-without-wire: No wire goes to `E1.2`\n'),
  good: system('  - W2: E1.2 to GND-1, black\n'),
  needsWholeFile: true,
  *check({ system: { parts, variants, wires } }) {
    const wiredIn = new Map(
      variants.map(v => [v, new Set(wires.filter(w => existsIn(w, v)).flatMap(w => [w.from?.text, w.to?.text]))]),
    );
    for (const part of parts.values()) {
      const open = new Map<string, string[]>();
      for (const variant of variants.filter(v => existsIn(part, v))) {
        const data = partIn(part, variant);
        if (!twoEnded.has(data.kind) && !(data.kind === 'switch' && data.terminals.length === 2)) continue;
        const wired = wiredIn.get(variant)!;
        const points = data.terminals.map(t => `${part.id}.${t.text}`);
        // A part without any wire is told as unused.
        if (!points.some(p => wired.has(p))) continue;
        for (const point of points) if (!wired.has(point)) open.set(point, [...(open.get(point) ?? []), variant]);
      }
      const [first] = open;
      if (!first) continue;
      yield {
        rule: 'terminal-without-wire',
        place: part.place,
        message: `No wire goes to ${joined([...open.keys()].map(p => name(p)))}`,
        detail: `The other terminal of ${name(part.id)} is wired, so it can never do anything${inVariants(first[1], variants)}.`,
        help: 'Add the wire to the list.',
      };
    }
  },
};
