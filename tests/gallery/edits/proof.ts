import { type Breakage, batteryFlat, genset, willNotCrank } from '../edit.ts';

/** What only shows when every fault is walked through the procedure. */
export const proof: readonly Breakage[] = [
  {
    rule: 'good-part-condemned',
    file: willNotCrank,
    what: 'two branches are swapped',
    edits: [
      ['hose cold: { go to: replace-coolant-heater,', 'hose cold: { go to: nothing-wrong,'],
      ['hose warm: nothing-wrong', 'hose warm: replace-coolant-heater'],
    ],
  },
  {
    rule: 'fault-ends-at-wrong-part',
    file: willNotCrank,
    what: 'the black lead is on the wrong ground',
    edits: [
      [
        `controller fuse, black lead on the ground of the battery
    minutes: 2
    set: { S1: off, mains: absent }
    measure: voltage
    red: F3.2
    black: GND-1`,
        `controller fuse
    minutes: 2
    set: { S1: off, mains: absent }
    measure: voltage
    red: F3.2
    black: GND-2`,
      ],
    ],
  },
  {
    rule: 'fault-not-found',
    file: willNotCrank,
    what: 'a clogged air filter brings people here, and no step looks at it',
    edits: [['shows: [heater-J1]', 'shows: [heater-J1, air-filter-P1]']],
  },
  {
    rule: 'intermittent-not-caught',
    file: willNotCrank,
    what: 'nobody wiggles the stop chain while it is read',
    edits: [
      [
        `Stop chain in the controller
    minutes: 1
    provoke: { wiggle: [W18, W19, W20, W21, W22, X1, X2, S11, S12, S13, A1] }`,
        `Stop chain in the controller
    minutes: 1`,
      ],
    ],
  },
  {
    rule: 'walk-gets-stuck',
    file: batteryFlat,
    what: 'the answer is missing that most machines give',
    edits: [['      current sinks below 4 A: drain\n', '']],
  },
  {
    rule: 'undecided-within-tolerances',
    file: batteryFlat,
    what: 'the limit lies inside what a bad wire shows',
    edits: [
      [
        'red: S16.2 (back-probe)\n    black: G1.+\n    limits: below 0.2 V',
        'red: S16.2 (back-probe)\n    black: G1.+\n    limits: below 0.8 V',
      ],
    ],
  },
  {
    rule: 'answers-do-not-tell',
    file: willNotCrank,
    what: 'it is not said who shows a blown fuse',
    edits: [['solenoid fuse blown: { go to: solenoid-short, shows: [F1] }', 'solenoid fuse blown: solenoid-short']],
  },
  {
    rule: 'step-splits-nothing',
    file: willNotCrank,
    what: 'what the controller has just told is measured by hand',
    edits: [
      [
        'then: { within: read-chain, otherwise: controller-feed }\n',
        `then: { within: supply-pin, otherwise: controller-feed }
  supply-pin:
    title: Supply voltage at the plug of the controller
    minutes: 3
    set: { S1: off, mains: absent, engine: stopped }
    measure: voltage
    red: A1.1 (back-probe)
    black: A1.2 (back-probe)
    limits: at least 11 V
    by variant: { twenty-four-volt: { limits: at least 20 V } }
    then: { within: read-chain, otherwise: controller-feed }
`,
      ],
    ],
  },
  {
    rule: 'measurement-repeats',
    file: willNotCrank,
    what: 'the battery is measured once more before the starter is replaced',
    edits: [
      [
        'then: { within: replace-starter, otherwise: ground-cable }\n',
        `then: { within: battery-again, otherwise: ground-cable }
  battery-again:
    title: Battery voltage while cranking, before the starter is taken off
    minutes: 2
    set: { S1: manual, mains: absent, engine: stopped }
    cautions:
      - warning: The engine turns; stand clear of the fan and the belts
      - warning: Battery gas explodes; no flame, no spark, wear eye protection
    measure: voltage
    red: G1.+
    black: G1.-
    limits: at least 9.6 V
    by variant: { twenty-four-volt: { limits: at least 19.2 V } }
    then: { within: replace-starter, otherwise: replace-battery }
`,
      ],
    ],
  },
  {
    rule: 'limit-could-separate',
    file: willNotCrank,
    what: 'a starter that gets far too little passes',
    edits: [
      [
        'limits: at least 9 V\n    by variant: { twenty-four-volt: { limits: at least 18 V } }\n    then: { within: replace-starter',
        'limits: at least 4 V\n    by variant: { twenty-four-volt: { limits: at least 18 V } }\n    then: { within: replace-starter',
      ],
    ],
  },
  {
    rule: 'ending-no-fault-reaches',
    file: willNotCrank,
    what: 'a clogged air filter does not keep an engine from turning',
    edits: [
      [
        '      all sound: read-supply',
        '      air filter clogged: { go to: replace-air-filter, shows: [air-filter-P1] }\n      all sound: read-supply',
      ],
      [
        '  mend-start-input:',
        '  replace-air-filter: { replace: [air-filter-P1], confirm: confirm }\n  mend-start-input:',
      ],
    ],
  },
  {
    rule: 'repair-names-too-much',
    file: willNotCrank,
    what: 'the coil of the solenoid is looked at where only its contact can be bad',
    edits: [['replace: [K2, K2.30, W4]', 'replace: [K2, K2.30, K2.86, W4]']],
  },
  {
    rule: 'repair-without-fault',
    file: genset,
    what: 'a ground that a repair names is said never to fail',
    edits: [
      [
        '  W4 open: { excluded',
        `  GND-3 open: { excluded: The lug is welded to the block }
  GND-3 high resistance: { excluded: The lug is welded to the block }
  W4 open: { excluded`,
      ],
    ],
    beside: [willNotCrank],
  },
];
