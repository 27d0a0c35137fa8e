import { smallSystem, smallWires, unusedRule } from './unused.ts';

export const unusedConnector = unusedRule({
  id: 'unused-connector',
  noun: 'connector',
  explanation: `
No wire passes this connector and no procedure takes it apart or looks at it. Mostly \`through\` was forgotten in the lines of
the wires, and then the checks know nothing of the contacts in it.

Write \`through CONNECTOR/CAVITY\` in the lines of its wires, or delete it.`,
  bad: `${smallSystem}
conditions: { key: [off, run] }
connectors:
  X1: { cavities: [1, 2] }
# ^^ hint unused-connector: Nothing names the connector \`X1\`${smallWires}
  - W3: E1.2 to G1.-, 1.5 mm², 1 m
`,
  good: `${smallSystem}
conditions: { key: [off, run] }
connectors:
  X1: { cavities: [1] }${smallWires}
  - W3: E1.2 to G1.- through X1/1, 1.5 mm², 1 m
`,
  *unused({ system }, { names }) {
    for (const { id, place } of system.connectors.values()) {
      if (!names.has(id)) yield { id, place, detail: 'No wire passes it, and no procedure takes it apart.' };
    }
  },
});
