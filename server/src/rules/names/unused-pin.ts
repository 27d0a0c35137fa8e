import { modulesOf } from './known.ts';
import { unusedRule } from './unused.ts';

const system = (pins: string) => `
format: 1
system: lamp-small
conditions: { key: [off, run] }
parts:
  G1: { kind: battery, voltage: 12.6 V ± 0.4 V, internal resistance: 10 mΩ }
  E1: { kind: switch, closed: { key: run } }
  A1:
    kind: module
    ground: 2
    pins:
      1: { name: supply, draws: 470 Ω ± 20 % }
      2: { name: negative }
${pins}wires:
  - W1: G1.+ to E1.1, 1.5 mm², 1 m
  - W2: E1.2 to A1.1, 1.5 mm², 1 m
  - W3: A1.2 to G1.-, 1.5 mm², 1 m
`;

export const unusedPin = unusedRule({
  id: 'unused-pin',
  noun: 'pin',
  explanation: `
No wire ends at this pin of the module and no lead is ever put on it. Either its wire is missing from the list, or the pin is spare and need not be
listed.

Add the wire, or take the pin out of the list. A pin that only other machines use may be allowed with the reason.`,
  bad: system(`      3: { name: buzzer, output: low side }
#     ^ hint unused-pin: Nothing names the pin \`A1.3\`
`),
  good: system(''),
  *unused({ system }, { names }) {
    for (const part of system.parts.values()) {
      // Of a module that nothing names at all the module is told, not each pin.
      if (!names.has(part.id)) continue;
      for (const { pins } of modulesOf(part)) {
        for (const { id, place } of pins.values()) {
          const point = `${part.id}.${id}`;
          if (!names.has(point)) yield { id: point, place, detail: 'No wire ends at it, and no lead is put on it.' };
        }
      }
    }
  },
});
