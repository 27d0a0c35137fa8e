import { modulesOf } from './known.ts';
import { unusedRule } from './unused.ts';

const system = (data: string) => `
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
      3: { name: lamp drive, output: low side }
    scan data:
      lamp: { from: 1, states: { dark: below 3 V, lit: above 6 V } }
${data}    rules:
      - { when: { lamp: lit }, do: { 3: on } }
wires:
  - W1: G1.+ to E1.1, 1.5 mm², 1 m
  - W2: E1.2 to A1.1, 1.5 mm², 1 m
  - W3: A1.2 to G1.-, 1.5 mm², 1 m
  - W4: A1.3 to E1.2, 1.5 mm², 1 m
`;

export const unusedScanDatum = unusedRule({
  id: 'unused-scan-datum',
  noun: 'scan datum',
  explanation: `
No step reads or records this value of the module, and none of the module's own rules depends on it. What the module says for nothing costs no
minutes and no tools, so mostly a procedure should ask it before anything is unplugged.

Read it in a step, or delete it. What is listed for a procedure still to be written may be allowed with the reason.`,
  bad: system(`      feed: { from: 1, shows: voltage }
#     ^^^^ hint unused-scan-datum: Nothing names the scan datum \`A1 feed\`
`),
  good: system(''),
  *unused({ system }, { names, conditions }) {
    for (const part of system.parts.values()) {
      if (!names.has(part.id)) continue;
      for (const { scanData } of modulesOf(part)) {
        for (const { id, place } of scanData.values()) {
          const datum = `${part.id} ${id}`;
          if (names.has(datum) || conditions.has(datum) || conditions.has(id)) continue;
          yield { id: datum, place, detail: 'No step reads or records it, and no rule of the module depends on it.' };
        }
      }
    }
  },
});
