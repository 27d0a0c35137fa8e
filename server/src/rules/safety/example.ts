import { lampProcedure } from '../example.ts';

/** A valve under pressure, an igniter, a controller and a capacitor on one fuse, for examples about what can harm. */
const system = `
#- /valve.system.yaml
format: 1
system: valve
title: Bale press of our own invention
conditions:
  key: [off, run]
parts:
  G1: { kind: battery, voltage: 12.6 V ± 0.4 V, internal resistance: 10 mΩ }
  F1: { kind: fuse, rating: 10 A, resistance: 8 mΩ }
  S1: { kind: switch, title: Key switch, closed: { key: run }, contact resistance: 20 mΩ }
  S2: { kind: switch, title: Door switch, positions: [open, shut], closed: shut }
  Y1: { kind: coil, title: Press valve, resistance: 9.2 Ω ± 8 %, hazard: stored pressure }
  Q1: { kind: resistor, title: Igniter of the fire extinguisher, resistance: 2.1 Ω ± 10 %, hazard: pyrotechnic }
  C1: { kind: capacitor, title: Capacitor of the door magnet, capacitance: 4700 µF }
  A1:
    kind: module
    title: Press controller
    ground: 2
    powered: { pin: 1, above: 6 V }
    pins:
      1: { name: feed, draws: 470 Ω ± 20 % }
      2: { name: ground }
      5: { name: igniter, pull-down: { through: 10 kΩ ± 5 % } }
connectors:
  X7: { title: Beside the extinguisher, cavities: [1, 2], contact resistance: 5 mΩ }
grounds:
  GND-1: { title: Frame, contact resistance: 5 mΩ }
splices:
  SP1: Switched feed
wires:
  - W1: G1.+ to F1.1, 2.5 mm², 0.4 m, red
  - W2: F1.2 to S1.1, 1.5 mm², 1.2 m, red
  - W3: S1.2 to SP1, 1.5 mm², 0.2 m, yellow
  - W4: SP1 to Y1.1, 1.5 mm², 2.0 m, yellow
  - W5: Y1.2 to GND-1, 1.5 mm², 0.5 m, black
  - W6: SP1 to A1.1, 1 mm², 1.5 m, yellow
  - W7: A1.2 to GND-1, 1 mm², 0.6 m, black
  - W8: A1.5 to Q1.1 through X7/1, 1 mm², 1.4 m, violet
  - W9: Q1.2 to GND-1 through X7/2, 1 mm², 1.4 m, black
  - W10: SP1 to S2.1, 1 mm², 0.5 m, yellow
  - W13: S2.2 to C1.1, 1 mm², 0.5 m, yellow
  - W11: C1.2 to GND-1, 1 mm², 0.5 m, black
  - W12: G1.- to GND-1, 4 mm², 0.5 m, black
`;

const files = `
endings:
  not-found: { no fault: The press works, connect: [X7] }
  ask-the-maker: { refer: Ask the maker, connect: [X7] }
${system.replace(/^\n/, '')}`;

/** Endings that put back what the steps of the example take apart: `connect: [X7]`, or nothing. */
export function pressProcedure(steps: string, putBack = ''): string {
  const endings = putBack ? files.replaceAll('connect: [X7]', putBack) : files.replaceAll(', connect: [X7]', '');
  return lampProcedure(steps.trimEnd()).replace('lamp.system', 'valve.system') + endings;
}
