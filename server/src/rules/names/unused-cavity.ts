import { smallSystem, unusedRule } from './unused.ts';

const wires = `
wires:
  - W1: G1.+ to S1.1, 1.5 mm², 1 m
  - W2: S1.2 to E1.1 through X1/1, 1.5 mm², 1 m
  - W3: E1.2 to G1.-, 1.5 mm², 1 m
`;

export const unusedCavity = unusedRule({
  id: 'unused-cavity',
  noun: 'cavity',
  explanation: `
No wire passes this cavity of the connector and none ends in it. Either a wire of the list should go through it, or the cavity is empty
on the machine and need not be listed.

Write \`through CONNECTOR/CAVITY\` in the line of the wire, or take the cavity out of the list.`,
  bad: `${smallSystem}
conditions: { key: [off, run] }
connectors:
  X1: { cavities: [1, 2] }
#                     ^ hint unused-cavity: Nothing names the cavity \`X1/2\`${wires}`,
  good: `${smallSystem}
conditions: { key: [off, run] }
connectors:
  X1: { cavities: [1] }${wires}`,
  *unused({ system }, { names }) {
    for (const connector of system.connectors.values()) {
      // Of a connector that nothing names at all the connector is told, not each cavity.
      if (!names.has(connector.id)) continue;
      for (const { text, place } of connector.cavities) {
        const id = `${connector.id}/${text}`;
        if (!names.has(id)) yield { id, place, detail: 'No wire passes it or ends in it.' };
      }
    }
  },
});
