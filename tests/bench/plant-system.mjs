/**
 * The system of an invented standby plant at the size of a large machine: 300 parts, 350 wires, a module of 40 pins.
 * Circuit `n` is a fuse, a switch and a load behind a plug; relay `n` is a pump that a lever starts through the module.
 */
export const systemName = 'plant.system.yaml';

export const circuits = 55;
export const relays = 16;

const titles = ['Cab fan', 'Work light', 'Oil heater', 'Fuel heater', 'Louvre drive', 'Sump heater', 'Panel light'];

export const titleOf = n => `${titles[n % titles.length]} ${Math.ceil(n / titles.length)}`;
export const plugOf = n => `X${1 + Math.floor((n - 1) / 8)}`;
export const studOf = n => `GND-${1 + (n % 8)}`;
/** The cavities of its plug that the feed and the return of a circuit pass. */
export const cavitiesOf = n => [1, 2].map(side => `${plugOf(n)}/${side + 2 * ((n - 1) % 8)}`);
/** The number of the first wire of a circuit; three more follow. */
export const wireOf = n => 10 + 4 * n;
/** The number of the first wire of a relay; seven more follow. */
export const relayWireOf = n => 300 + 8 * n;
export const numbers = (from, to) => Array.from({ length: to - from + 1 }, (_, i) => from + i);

const each = (to, write) => numbers(1, to).map(write).join('\n');

export function systemText() {
  return `# Standby plant with its distribution board. Every name and value here is made up.
format: 1
system: plant
title: Standby plant with its distribution board
temperature: 25 °C

variants:
  early: With short leads to the pumps
  late: With long leads to the pumps

conditions:
  key: [off, run]
  charger:
    title: Battery charger
    states: [off, on]

parts:
  G1:
    kind: battery
    title: Plant battery
    voltage:
      - { when: { charger: off }, is: 12.7 V ± 0.3 V }
      - { when: { charger: on }, is: 13.8 V ± 0.3 V }
    internal resistance: 6 mΩ
    hazard: chemical
    access: 3 min
  F0: { kind: fuse, title: Main fuse, rating: 250 A, resistance: 0.3 mΩ, access: 2 min }
  S0: { kind: switch, title: Key switch, closed: { key: run }, contact resistance: 2 mΩ, access: 5 min }
  F90: { kind: fuse, title: Control fuse, rating: 10 A, resistance: 8 mΩ, access: 2 min }
${each(circuits, circuitParts)}
${each(relays, relayParts)}
  A1:
    kind: module
    title: Plant control module
    ground: 2
    powered: { pin: 1, above: 6 V }
    access: 4 min
    pins:
      1: { name: feed, draws: 470 Ω ± 20 % }
      2: { name: ground }
${each(relays, n => `      ${2 + n}: { name: lever ${n}, pull-up: { to: 5 V ± 2 %, through: 1.5 kΩ ± 1 % } }`)}
${each(relays, n => `      ${20 + n}: { name: drive ${n}, output: low side, on resistance: 0.4 Ω }`)}
${each(6, n => `      ${40 + n}: { name: spare input ${n}, pull-down: { through: 10 kΩ ± 5 % } }`)}
    scan data:
${each(relays, n => `      lever ${n}: { from: ${2 + n}, states: { off: below 0.3 V, on: 1.4 V .. 2.1 V, idle: above 4.2 V } }`)}
    rules:
${each(relays, n => `      - { when: { lever ${n}: on, key: run }, do: { ${20 + n}: on } }`)}
${each(60, n => `  hose-${n}: { kind: item, title: Coolant hose ${n}, fails: { chafed: Leaks when warm, kinked: Runs hot } }`)}

connectors:
${each(7, plugLine)}
  X20: { title: Control plug, cavities: [1, 2], contact resistance: 5 mΩ, access: 3 min }

grounds:
${each(8, n => `  GND-${n}: { title: Frame stud ${n}, contact resistance: 1 mΩ }`)}

splices:
  SP1: Feed bar behind the board
  SP2: Feed bar of the relays
  SP3: Return bar of the levers

wires:
  - W1: G1.+ to F0.1, 50 mm², 0.6 m, red
  - W2: F0.2 to S0.1, 50 mm², 1.2 m, red
  - W3: S0.2 to SP1, 50 mm², 0.4 m, red
  - W4: SP1 to SP2, 25 mm², 0.4 m, red
  - W5: G1.- to GND-1, 50 mm², 0.5 m, black
  - W6: SP2 to F90.1, 1.5 mm², 0.3 m, red
  - W7: F90.2 to A1.1 through X20/1, 1.5 mm², 2.0 m, red
  - W8: A1.2 to GND-2 through X20/2, 1.5 mm², 0.6 m, black
  - W9: SP3 to GND-2, 1.5 mm², 0.8 m, black
${each(circuits, circuitWires)}
${each(relays, relayWires)}
`;
}

function circuitParts(n) {
  return `  F${n}: { kind: fuse, title: ${titleOf(n)} fuse, rating: 15 A, resistance: 6 mΩ, access: 2 min }
  S${n}:
    kind: switch
    title: ${titleOf(n)} switch
    positions: [released, pressed]
    closed: pressed
    contact resistance: 15 mΩ
    access: 4 min
  E${n}: { kind: heater, title: ${titleOf(n)}, resistance: ${(3 + (n % 9) * 0.4).toFixed(1)} Ω ± 10 %, access: 6 min }`;
}

function relayParts(n) {
  return `  F${100 + n}: { kind: fuse, title: Pump ${n} fuse, rating: 20 A, resistance: 4 mΩ, access: 2 min }
  B${n}: { kind: coded switches, title: Lever ${n}, idle: 18 kΩ ± 2 %, buttons: { on: 820 Ω ± 2 %, off: short } }
  K${n}:
    kind: relay
    title: Pump ${n} relay
    coil: 85 Ω ± 10 %
    pull-in: 8 V
    drop-out: 1.5 V
    contact resistance: 5 mΩ
    access: 3 min
  M${n}: { kind: motor, title: Pump ${n}, resistance: 2.4 Ω ± 15 %, hazard: moving parts, access: 10 min }`;
}

function plugLine(n) {
  // The last plug is not full.
  const last = Math.min(16, 2 * (circuits - 8 * (n - 1)));
  return `  X${n}: { title: Board plug ${n}, cavities: [${numbers(1, last).join(', ')}], contact resistance: 5 mΩ, access: 3 min }`;
}

function circuitWires(n) {
  const [feed, back] = cavitiesOf(n);
  const at = wireOf(n);
  return `  - W${at}: SP1 to F${n}.1, 2.5 mm², 0.3 m, red
  - W${at + 1}: F${n}.2 to S${n}.1, 2.5 mm², 1.1 m, red
  - W${at + 2}: S${n}.2 to E${n}.1 through ${feed}, 2.5 mm², 2.4 m, yellow
  - W${at + 3}: E${n}.2 to ${studOf(n)} through ${back}, 2.5 mm², 1.2 m, black`;
}

function relayWires(n) {
  const at = relayWireOf(n);
  return `  - W${at}: SP2 to F${100 + n}.1, 4 mm², 0.3 m, red
  - W${at + 1}: F${100 + n}.2 to K${n}.30, 4 mm², 0.5 m, red
  - W${at + 2}: F${100 + n}.2 to K${n}.86, 0.75 mm², 0.5 m, red
  - W${at + 3}: K${n}.85 to A1.${20 + n}, 0.75 mm², 1.5 m, white
  - W${at + 4}: K${n}.87 to M${n}.1, 4 mm², 2.2 m, red, only early
  - W${at + 4}: K${n}.87 to M${n}.1, 4 mm², 3.1 m, red, only late
  - W${at + 5}: M${n}.2 to ${studOf(n)}, 4 mm², 1.0 m, black
  - W${at + 6}: A1.${2 + n} to B${n}.1, 0.75 mm², 1.8 m, green
  - W${at + 7}: B${n}.2 to SP3, 0.75 mm², 1.8 m, black`;
}
