import { smallSystem, smallWires, unusedRule } from './unused.ts';

export const unusedSpecification = unusedRule({
  id: 'unused-specification',
  noun: 'specification',
  explanation: `
No step of a procedure goes by this table. The steps may state the same limits themselves, and then the two will drift apart, or a
test that the table was made for is missing.

Name a row of it in a step, as in \`specification: keypad-ohms/idle\`, or delete the table.`,
  bad: `${smallSystem}
conditions: { key: [off, run] }
specifications:
  lamp-ohms:
# ^^^^^^^^^ hint unused-specification: Nothing names the specification \`lamp-ohms\`
    measure: resistance
    red: E1.1 (part side)
    black: E1.2 (part side)
    disconnect: [E1]
    rows: { cold: { limits: 9.4 Ω .. 10.8 Ω } }${smallWires}
  - W3: E1.2 to G1.-, 1.5 mm², 1 m
`,
  good: `${smallSystem}
conditions: { key: [off, run] }${smallWires}
  - W3: E1.2 to G1.-, 1.5 mm², 1 m
`,
  *unused({ system }, { specifications }) {
    for (const { id, place } of system.specifications.values()) {
      if (!specifications.has(id)) yield { id, place, detail: 'No step of a procedure goes by one of its rows.' };
    }
  },
});
