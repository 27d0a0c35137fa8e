/** A lamp behind a switch, in which nothing is wrong, for examples in which only what is added matters. */
export function lampSystem(more: string): string {
  return `
format: 1
system: lamp
conditions:
  key: [off, run]
parts:
  G1: { kind: battery, voltage: 12.6 V ± 0.4 V, internal resistance: 10 mΩ }
  S1: { kind: switch, closed: { key: run }, contact resistance: 20 mΩ }
  E1: { kind: resistor, resistance: 10 Ω ± 5 % }
grounds:
  GND-1: { title: Frame }
wires:
  - W1: G1.+ to S1.1, 1.5 mm², 1 m, red
  - W2: S1.2 to E1.1, 1.5 mm², 2 m, yellow
  - W3: E1.2 to GND-1, 1.5 mm², 0.5 m, black
  - W4: G1.- to GND-1, 4 mm², 0.5 m, black
${more.replace(/^\n/, '')}`;
}
