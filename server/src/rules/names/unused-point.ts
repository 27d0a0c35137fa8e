import { smallSystem, smallWires, unusedRule } from './unused.ts';

export const unusedPoint = unusedRule({
  id: 'unused-point',
  noun: 'ground or splice',
  explanation: `
No wire ends at this ground or splice. Either a wire is missing from the list, or the point was left behind when a wire was taken out.

Add the wire, or delete the point.`,
  bad: `${smallSystem}
conditions: { key: [off, run] }
grounds: { GND-1: { title: Frame }, GND-2: { title: Cab } }
#                                   ^^^^^ hint unused-point: Nothing names the ground \`GND-2\`${smallWires}
  - W3: E1.2 to GND-1, 1.5 mm², 1 m
  - W4: G1.- to GND-1, 1.5 mm², 1 m
`,
  good: `${smallSystem}
conditions: { key: [off, run] }
grounds: { GND-1: { title: Frame } }${smallWires}
  - W3: E1.2 to GND-1, 1.5 mm², 1 m
  - W4: G1.- to GND-1, 1.5 mm², 1 m
`,
  *unused({ system }, { names }) {
    const detail = 'No wire ends there, and no lead is put on it.';
    for (const { id, place } of system.grounds.values())
      if (!names.has(id)) yield { id, place, detail, noun: 'ground' };
    for (const { id, place } of system.splices.values())
      if (!names.has(id)) yield { id, place, detail, noun: 'splice' };
  },
});
