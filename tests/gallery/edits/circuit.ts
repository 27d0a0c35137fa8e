import {
  alarm,
  type Breakage,
  batteryFlat,
  bilge,
  type Edit,
  genset,
  loaderDropsOut,
  pump,
  willNotCrank,
} from '../edit.ts';

const buzzer = 'limits: 78 Ω .. 102 Ω';

/** What the circuit of the system itself says. */
export const circuit: readonly Breakage[] = [
  inBilge(
    'supply-shorted',
    'a wire from plus to minus of a charger',
    ['\nparts:\n', '\nparts:\n  U1: { kind: supply, title: Charger, voltage: 13.6 V }\n'],
    ['\nwires:\n', '\nwires:\n  - W51: U1.+ to U1.-\n'],
  ),
  inBilge(
    'supplies-tied-together',
    'two chargers in parallel, with nothing between them',
    ['\nparts:\n', '\nparts:\n  U1: { kind: supply, voltage: 13.6 V }\n  U2: { kind: supply, voltage: 13.8 V }\n'],
    ['\nwires:\n', '\nwires:\n  - W51: U1.+ to U2.+\n  - W52: U1.- to U2.-\n'],
  ),
  inBilge('wire-to-itself', 'both ends of `W41` are written at `S5.1`', ['W41: SP3 to S5.1', 'W41: S5.1 to S5.1']),
  inBilge('bridged-part', 'a wire leads round the fuse of the alarm', [
    '\nwires:\n',
    '\nwires:\n  - W51: F6.1 to F6.2, red\n',
  ]),
  inBilge('cavity-taken-twice', 'both wires of the float go through `X6/1`', ['through X6/2', 'through X6/1']),
  inBilge('terminal-without-wire', 'the end-of-line resistor has one wire only', [/ {2}- W40: R1\.2 .*\n/, '']),
  inBilge('excluded-without-reason', 'the reason why the bus bar never opens is only a word', [
    'excluded: Bolted at both ends and inspected every season',
    'excluded: yes',
  ]),
  inBilge('added-fault-is-derived', 'the broken float switch is added as if it did not follow from the parts', [
    'S3 open: { likelihood: 5 }',
    'S3 open: { likelihood: 5, added: It sits in the wet }',
  ]),
  inBilge('fault-value-without-use', 'a contact that never closes has no ohms', [
    'S3 open: { likelihood: 5 }',
    'S3 open: { likelihood: 5, resistance: 20 Ω }',
  ]),
  inAlarm('lead-inside-plug', 'the terminal is inside a plug that is on', ['red: S4.1 (back-probe)', 'red: S4.1']),
  inAlarm('lead-side-missing', 'the plug is apart, and which half is meant is not said', [
    'red: X6/1 (S4 side)\n    black: X6/2 (S4 side)\n    specification: float-ohms/dry\n    provoke: { wiggle: [S4]',
    'red: X6/1\n    black: X6/2 (S4 side)\n    specification: float-ohms/dry\n    provoke: { wiggle: [S4]',
  ]),
  inAlarm('lead-side-unknown', 'no half of the plug leads to `S5`', [
    'red: X6/1 (S4 side)\n    black: X6/2 (S4 side)\n    specification: float-ohms/dry\n    provoke: { wiggle: [S4]',
    'red: X6/1 (S5 side)\n    black: X6/2 (S4 side)\n    specification: float-ohms/dry\n    provoke: { wiggle: [S4]',
  ]),
  {
    rule: 'point-not-in-variant',
    file: loaderDropsOut,
    what: 'only one variant has the relay `K3`',
    edits: [['red: A1.3 (back-probe)', 'red: K3.87 (back-probe)']],
  },
  inAlarm('floating-lead', 'with fuse and plug out nothing ties the buzzer wire to anything', [
    'measure: resistance\n    red: A2.5 (harness side)\n    black: BN2\n    limits: OL',
    'measure: voltage\n    red: A2.5 (harness side)\n    black: BN2\n    limits: below 0.5 V',
  ]),
  {
    rule: 'ohms-on-live-circuit',
    file: batteryFlat,
    what: 'ohms where the battery voltage is',
    edits: [
      [
        'measure: voltage\n    red: F2.2 (harness side)\n    black: GND-2\n    limits: at least 12 V\n    by variant: { twenty-four-volt: { limits: at least 24 V } }',
        'measure: resistance\n    red: F2.2 (harness side)\n    black: GND-2\n    limits: below 1 Ω',
      ],
    ],
  },
  {
    rule: 'drop-without-load',
    file: pump,
    what: 'with the switch off no current flows through the relay coil',
    edits: [
      [
        'set: { QS1: on, S2: manual, S3: down }\n    measure: voltage drop\n    red: K1.86',
        'set: { QS1: on, S2: off, S3: down }\n    measure: voltage drop\n    red: K1.86',
      ],
    ],
  },
  {
    rule: 'reading-depends-on-path',
    file: loaderDropsOut,
    what: 'on one way to this step `on` is held, and no button on the other',
    edits: [
      [
        'no button held\n    minutes: 4\n    set: { engine: stopped, key: run, seat: occupied, S6: idle }',
        'no button held\n    minutes: 4\n    set: { engine: stopped, key: run, seat: occupied }',
      ],
      ['specification: keypad-sense/idle\n    then:', 'limits: 4.48 V .. 4.75 V\n    then:'],
    ],
  },
  inAlarm('limits-contradict-circuit', 'a good buzzer never reads that', [buzzer, 'limits: 20 Ω .. 40 Ω']),
  inAlarm('good-system-can-fail', 'some good buzzers read more or less than that', [buzzer, 'limits: 85 Ω .. 95 Ω']),
  inAlarm('limits-not-derived', 'the circuit is open where the limits should come from it', [
    'red: A2.6 (harness side)\n    black: BN2\n    limits: OL',
    'red: A2.6 (harness side)\n    black: BN2\n    limits: from the circuit',
  ]),
  {
    rule: 'scan-contradicts-circuit',
    file: willNotCrank,
    what: 'a full tank never shows as `low`',
    edits: [['expect: enough', 'expect: low']],
  },
  {
    rule: 'system-does-not-settle',
    file: genset,
    what: 'on automatic the relay `K9` takes its own supply away',
    edits: [
      [
        '\n  K3:\n',
        '\n  K9: { kind: relay, title: Ready relay, coil: 85 Ω ± 10 %, pull-in: 8 V, drop-out: 1.5 V }\n  K3:\n',
      ],
      [
        '\n  - W18: ',
        '\n  - W51: S1.A to K9.30, 1 mm², 0.4 m\n  - W52: K9.87a to K9.86, 1 mm², 0.1 m\n  - W53: K9.85 to GND-2, 1 mm², 0.4 m\n  - W18: ',
      ],
    ],
    beside: [batteryFlat, willNotCrank],
  },
  {
    rule: 'outside-curve',
    file: bilge,
    what: 'a thermometer that follows more than its curve has',
    edits: [
      ['\nparts:\n', '\n  bilge water: { from: -40 °C, to: 60 °C, rest: 15 °C }\n\nparts:\n'],
      [
        'R1: { kind: resistor, title: End-of-line resistor in the float box, resistance: 4.7 kΩ ± 2 %,',
        'R1: { kind: thermistor, title: End-of-line resistor in the float box, follows: bilge water, curve: { table: [{ at: 0 °C, is: 4.7 kΩ ± 2 % }, { at: 60 °C, is: 4.6 kΩ ± 2 % }] },',
      ],
    ],
    beside: [alarm, pump],
  },
  {
    rule: 'reading-not-computed',
    file: bilge,
    what: 'a resistor in the buzzer wire whose value is known on shore power only',
    edits: [
      [
        '\n  E1: {',
        '\n  R9: { kind: resistor, title: Buzzer resistor, resistance: [{ when: { shore power: on }, is: 22 Ω }] }\n  E1: {',
      ],
      [
        '  - W44: B1.2 to A2.5, 0.75 mm², 0.4 m, grey\n',
        '  - W44: B1.2 to R9.1, 0.75 mm², 0.2 m, grey\n  - W49: R9.2 to A2.5, 0.75 mm², 0.2 m, grey\n',
      ],
    ],
    beside: [alarm, pump],
  },
  {
    rule: 'reads-parallel-path',
    file: bilge,
    what: 'a resistor against sparks lies beside the buzzer, which is measured with it',
    edits: [
      ['\n  E1: {', '\n  R9: { kind: resistor, title: Spark resistor, resistance: 3.3 kΩ ± 5 % }\n  E1: {'],
      ['  - W45: ', '  - W49: R9.1 to B1.1, 0.75 mm², 0.1 m\n  - W50: R9.2 to B1.2, 0.75 mm², 0.1 m\n  - W45: '],
    ],
    beside: [alarm, pump],
  },
  inAlarm('impossible-value', 'no supply of the boat gives 60 V', ['above 6 V: line-open', 'above 60 V: line-open']),
];

function inAlarm(rule: string, what: string, ...edits: Edit[]): Breakage {
  return { rule, file: alarm, what, edits };
}

function inBilge(rule: string, what: string, ...edits: Edit[]): Breakage {
  return { rule, file: bilge, what, edits };
}
