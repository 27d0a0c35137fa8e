import { smallSystem, smallWires, unusedRule } from './unused.ts';

export const unusedPart = unusedRule({
  id: 'unused-part',
  noun: 'part',
  explanation: `
No wire ends at this part, and no procedure looks at it, mends it or names it otherwise. Either a wire is missing from the list, or
the part belongs to something that was taken out.

Wire it, name it in a procedure, or delete it. What is kept for later is allowed with the reason:
\`allow: { unused-part: { in: [E9], because: Kept for the next file } }\`.`,
  bad: `${smallSystem}
  E9: { kind: resistor, resistance: 5 Ω ± 5 % }
# ^^ hint unused-part: Nothing names the part \`E9\`
conditions: { key: [off, run] }${smallWires}
  - W3: E1.2 to G1.-, 1.5 mm², 1 m
`,
  good: `${smallSystem}
conditions: { key: [off, run] }${smallWires}
  - W3: E1.2 to G1.-, 1.5 mm², 1 m
`,
  *unused({ system }, { names, conditions }) {
    for (const { id, place } of system.parts.values()) {
      if (names.has(id) || conditions.has(id)) continue;
      yield { id, place, detail: 'No wire ends at it, and no procedure looks at it or mends it.' };
    }
  },
});
