/** Small systems that fixtures may name without writing them out: invented, and complete under every rule. */
export const systemsByName: ReadonlyMap<string, string> = new Map([
  [
    'lamp.system.yaml',
    `format: 1
system: lamp
title: Work lamp of a small trailer
conditions:
  key: [off, run]
parts:
  G1: { kind: battery, voltage: 12.6 V ± 0.4 V, internal resistance: 10 mΩ }
  F1: { kind: fuse, rating: 10 A }
  S1: { kind: switch, title: Lamp switch, closed: { key: run }, contact resistance: 20 mΩ }
  E1: { kind: resistor, title: Lamp element, resistance: 10 Ω ± 5 % }
connectors:
  X1: { title: Behind the lamp, cavities: [1, 2], contact resistance: 5 mΩ }
grounds:
  GND-1: { title: Frame, contact resistance: 5 mΩ }
wires:
  - W1: G1.+ to F1.1, 2.5 mm², 0.4 m, red
  - W2: F1.2 to S1.1, 1.5 mm², 1.2 m, red
  - W3: S1.2 to E1.1 through X1/1, 1.5 mm², 2.0 m, yellow
  - W4: E1.2 to GND-1 through X1/2, 1.5 mm², 0.5 m, black
  - W5: G1.- to GND-1, 4 mm², 0.5 m, black
specifications:
  lamp-ohms:
    title: Lamp element, plug apart
    measure: resistance
    red: X1/1 (E1 side)
    black: X1/2 (E1 side)
    disconnect: [X1]
    rows:
      cold: { limits: 9 Ω .. 11 Ω }
`,
  ],
  [
    'heater.system.yaml',
    `format: 1
system: heater
title: Fuel heater of a small generator
conditions:
  key: [off, run]
parts:
  G1: { kind: battery, voltage: 12.6 V ± 0.4 V, internal resistance: 10 mΩ }
  F1: { kind: fuse, rating: 10 A }
  S1: { kind: switch, title: Heater switch, closed: { key: run }, contact resistance: 20 mΩ }
  H1: { kind: heater, title: Fuel heater, resistance: 10 Ω ± 5 % }
  bracket: { kind: item, title: Bracket of the heater }
connectors:
  X1: { title: Behind the heater, cavities: [1, 2], contact resistance: 5 mΩ }
grounds:
  GND-1: { title: Frame, contact resistance: 5 mΩ }
wires:
  - W1: G1.+ to F1.1, 2.5 mm², 0.4 m, red
  - W2: F1.2 to S1.1, 1.5 mm², 1.2 m, red
  - W3: S1.2 to H1.1 through X1/1, 1.5 mm², 2.0 m, yellow
  - W4: H1.2 to GND-1 through X1/2, 1.5 mm², 0.5 m, black
  - W5: G1.- to GND-1, 4 mm², 0.5 m, black
`,
  ],
  [
    'lamp-variants.system.yaml',
    `format: 1
system: lamp-variants
title: Work lamp, with and without a dimmer
variants:
  plain: Lamp on the switch
  with-dimmer: Lamp behind a dimmer resistor
conditions:
  key: [off, run]
parts:
  G1: { kind: battery, voltage: 12.6 V ± 0.4 V, internal resistance: 10 mΩ }
  S1: { kind: switch, title: Lamp switch, closed: { key: run }, contact resistance: 20 mΩ }
  R1: { kind: resistor, title: Dimmer, only: with-dimmer, resistance: 2 Ω ± 5 % }
  E1: { kind: resistor, title: Lamp element, resistance: 10 Ω ± 5 % }
grounds:
  GND-1: { title: Frame, contact resistance: 5 mΩ }
wires:
  - W1: G1.+ to S1.1, 2.5 mm², 0.4 m, red
  - W2: S1.2 to E1.1, 1.5 mm², 2.0 m, yellow, only plain
  - W6: S1.2 to R1.1, 1.5 mm², 1.0 m, yellow, only with-dimmer
  - W7: R1.2 to E1.1, 1.5 mm², 1.0 m, yellow, only with-dimmer
  - W4: E1.2 to GND-1, 1.5 mm², 0.5 m, black
  - W5: G1.- to GND-1, 4 mm², 0.5 m, black
`,
  ],
  [
    'keypad.system.yaml',
    `format: 1
system: keypad
title: Keypad of a small loader
conditions:
  key: [off, run]
  oil temperature: { from: -20 °C, to: 110 °C, rest: 20 °C }
parts:
  G1: { kind: battery, voltage: 12.6 V ± 0.4 V, internal resistance: 10 mΩ }
  S1: { kind: switch, title: Key switch, closed: { key: run }, contact resistance: 20 mΩ }
  S6: { kind: coded switches, title: Keypad, idle: 18 kΩ ± 2 %, buttons: { on: 820 Ω ± 2 %, off: short } }
  A1:
    kind: module
    title: Control module
    ground: 2
    powered: { pin: 1, above: 6 V }
    pins:
      1: { name: feed, draws: 470 Ω ± 20 % }
      2: { name: ground }
      14: { name: keypad sense, pull-up: { to: 5 V ± 2 %, through: 1.5 kΩ ± 1 % } }
    scan data:
      keypad: { from: 14, states: { off: below 0.3 V, on: 1.4 V .. 2.1 V, idle: above 4.4 V } }
      feed voltage: { from: 1, shows: voltage }
      oil temperature: { follows: oil temperature }
  hose-P1: { kind: item, title: Pilot hose, fails: { chafed: Leaks when warm } }
connectors:
  X12: { title: Lever base, cavities: [1, 2], contact resistance: 5 mΩ }
grounds:
  GND-4: { title: Frame, contact resistance: 5 mΩ }
wires:
  - W1: G1.+ to S1.1, 2.5 mm², 0.4 m, red
  - W2: S1.2 to A1.1, 1.5 mm², 2.0 m, red
  - W3: A1.2 to GND-4, 1.5 mm², 0.5 m, black
  - W5: G1.- to GND-4, 4 mm², 0.5 m, black
  - W41: S6.1 to A1.14 through X12/1, 0.75 mm², 2.4 m, yellow/black
  - W42: S6.2 to GND-4 through X12/2, 0.75 mm², 1.1 m, black
`,
  ],
]);
