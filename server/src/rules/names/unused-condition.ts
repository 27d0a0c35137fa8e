import { smallSystem, smallWires, unusedRule } from './unused.ts';

export const unusedCondition = unusedRule({
  id: 'unused-condition',
  noun: 'condition',
  explanation: `
No switch, sensor or operating rule depends on this condition, and no procedure sets it. It changes nothing that is checked.

Name it where it acts, for example under \`closed\` of a switch, or delete it.`,
  bad: `${smallSystem}
conditions:
  key: [off, run]
  seat: [empty, occupied]
# ^^^^ hint unused-condition: Nothing names the condition \`seat\`${smallWires}
  - W3: E1.2 to G1.-, 1.5 mm², 1 m
`,
  good: `${smallSystem}
conditions:
  key: [off, run]${smallWires}
  - W3: E1.2 to G1.-, 1.5 mm², 1 m
`,
  *unused({ system }, { conditions }) {
    for (const { id, place } of system.conditions.values()) {
      if (!conditions.has(id)) yield { id, place, detail: 'No part depends on it, and no procedure sets it.' };
    }
  },
});
