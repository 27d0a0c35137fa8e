/**
 * A small machine that has one of most things, with a test of each kind, made up; another one for every round, so that nothing about it is
 * known already.
 */
export function warmUpMachine(round: number): ReadonlyMap<string, string> {
  return new Map([
    ['warm-up:/machine.system.yaml', systemText(100 + round)],
    ['warm-up:/machine.procedure.yaml', procedureText],
  ]);
}

const systemText = (coilOhms: number) => `format: 1
system: machine
title: Pump of a machine that warms up
conditions:
  key: [off, run]
parts:
  G1: { kind: battery, voltage: 12.6 V ± 0.4 V, internal resistance: 10 mΩ }
  F1: { kind: fuse, rating: 20 A }
  S1: { kind: switch, title: Key switch, closed: { key: run }, contact resistance: 20 mΩ }
  S6:
    kind: coded switches
    title: Keypad
    idle: 18 kΩ ± 2 %
    buttons: { on: 820 Ω ± 2 %, off: short }
  K1: { kind: relay, coil: ${coilOhms} Ω ± 10 %, pull-in: 8 V, drop-out: 1.5 V, contact resistance: 10 mΩ, suppression: { diode: 86 to 85 } }
  M1: { kind: motor, resistance: 0.8 Ω ± 20 % }
  A1:
    kind: module
    title: Control module
    ground: 2
    powered: { pin: 1, above: 6 V }
    pins:
      1: { name: feed, draws: 470 Ω ± 20 % }
      2: { name: ground }
      3: { name: keypad sense, pull-up: { to: 5 V ± 2 %, through: 1.5 kΩ ± 1 % } }
      4: { name: relay drive, output: low side, on resistance: 0.4 Ω }
    scan data:
      keypad: { from: 3, states: { off: below 0.3 V, on: 1.4 V .. 2.1 V, idle: above 4.4 V } }
    rules:
      - { when: { keypad: on }, do: { 4: on } }
connectors:
  X1: { title: At the pump, cavities: [1, 2], contact resistance: 5 mΩ }
grounds:
  GND-1: { title: Frame, contact resistance: 5 mΩ }
wires:
  - W1: G1.+ to F1.1, 2.5 mm², 0.4 m, red
  - W2: F1.2 to S1.1, 1.5 mm², 1.2 m, red
  - W3: S1.2 to A1.1, 1.5 mm², 2.0 m, red
  - W4: A1.1 to K1.85, 0.75 mm², 1.0 m, red
  - W5: K1.86 to A1.4, 0.75 mm², 1.0 m, brown
  - W6: F1.2 to K1.30, 2.5 mm², 1.0 m, red
  - W7: K1.87 to M1.1 through X1/1, 2.5 mm², 2.0 m, yellow
  - W8: M1.2 to GND-1 through X1/2, 2.5 mm², 0.5 m, black
  - W9: S6.1 to A1.3, 0.75 mm², 2.4 m, white
  - W10: S6.2 to GND-1, 0.75 mm², 0.6 m, black
  - W11: A1.2 to GND-1, 1.5 mm², 0.6 m, black
  - W12: G1.- to GND-1, 4 mm², 0.5 m, black
`;

const procedureText = `format: 1
procedure: pump-stands-still
title: Pump stands still
applies to:
  machine.system.yaml: all
starts from:
  - symptom: the pump stands still
tools: [multimeter, back-probe pins]
start: sense
steps:
  sense:
    title: Keypad sense voltage
    minutes: 3
    set: { key: run, S6: on }
    measure: voltage
    red: A1.3 (back-probe)
    black: GND-1
    limits: 1.4 V .. 2.1 V
    then: { within: pump, otherwise: keypad }
  pump:
    title: Voltage at the pump
    minutes: 3
    measure: voltage
    red: M1.1
    black: M1.2
    limits: 8 V .. 13 V
    then: { within: replace-pump, otherwise: relay }
  relay:
    title: Current of the relay
    minutes: 3
    measure: current
    around: W4
    limits: 0.05 A .. 0.2 A
    then: { within: replace-relay, otherwise: keypad }
  keypad:
    title: Resistance of the keypad
    minutes: 3
    set: { key: off, S6: on }
    disconnect: [S6]
    measure: resistance
    red: S6.1 (part side)
    black: S6.2 (part side)
    limits: 750 Ω .. 850 Ω
    then: { within: ask-the-maker, otherwise: replace-keypad }
  runs: { operate: Press the button, minutes: 1, connect: [S6], set: { key: run }, then: { the pump runs: done, it stands still: ask-the-maker } }
endings:
  replace-pump: { replace: [M1], confirm: runs }
  replace-relay: { replace: [K1], confirm: runs }
  replace-keypad: { replace: [S6], confirm: runs }
  done: { repaired: The pump runs }
  ask-the-maker: { refer: Inside the module }
`;
