import { alarm, type Breakage, type Edit, pump } from '../edit.ts';

const buzzer = 'limits: 78 Ω .. 102 Ω';

/** Limits, and the branches that they part. */
export const limits: readonly Breakage[] = [
  inAlarm('wrong-unit', 'volts as limits of a resistance', [buzzer, 'limits: 78 V .. 102 V']),
  inAlarm('limit-word', '`over` is not a word of limits', ['limits: at least 12.1 V', 'limits: over 12.1 V']),
  inAlarm('empty-range', 'both ends of the range are the same', [buzzer, 'limits: 90 Ω .. 90 Ω']),
  inAlarm('exact-limit', 'one value leaves no room for tolerances', [buzzer, 'limits: 90 Ω']),
  inAlarm('within-without-limits', '`within` refers to limits that are not there', [
    '    limits: at least 12.1 V\n',
    '',
  ]),
  inAlarm('limits-and-specification', 'limits stand beside the specification', [
    '    specification: float-line/dry\n',
    '    specification: float-line/dry\n    limits: 2.25 V .. 2.9 V\n',
  ]),
  inAlarm('limits-differ-from-table', 'the table has other limits for the float line', [
    'specification: float-line/dry',
    'limits: 2.2 V .. 3.1 V',
  ]),
  inAlarm('specification-of-other-kind', 'a table of ohms for a step that measures volts', [
    'specification: float-line/dry',
    'specification: float-ohms/dry',
  ]),
  inAlarm('gap-between-branches', 'nothing takes a reading between 2.9 V and 6 V', [
    '      above 6 V: line-open\n      otherwise: float-ohms\n',
    '      1 V .. 2.25 V: float-ohms\n      above 6 V: line-open\n',
  ]),
  inAlarm('below-zero-not-handled', 'nothing takes a reading below zero', [
    '{ within: replace-alarm-unit, otherwise: alarm-battery }',
    '{ within: replace-alarm-unit, 0 V .. 11.8 V: alarm-battery }',
  ]),
  inAlarm('over-limit-not-handled', 'nothing takes a reading of `OL`', [
    '{ within: lamp-wire, otherwise: replace-buzzer }',
    '{ within: lamp-wire, below: replace-buzzer }',
  ]),
  inAlarm('overlapping-branches', 'two branches take a reading of 2.4 V', [
    'below 1 V: line-shorted',
    'below 2.5 V: line-shorted',
  ]),
  inAlarm('branch-never-taken', 'nothing is above limits without an upper end', [
    '{ within: replace-alarm-unit, otherwise: alarm-battery }',
    '{ within: replace-alarm-unit, above: mend-alarm-feed, otherwise: alarm-battery }',
  ]),
  inAlarm('branches-out-of-order', 'the ranges do not rise', [
    '      otherwise: float-ohms\n  level-dry:',
    '      2.9 V .. 6 V: float-ohms\n      1 V .. 2.25 V: float-ohms\n  level-dry:',
  ]),
  {
    rule: 'meter-answers',
    file: pump,
    what: 'nothing is said of a test lamp that only glows',
    edits: [
      [
        'then: { lit: replace-panel-switch, otherwise: automatic-fuse }',
        'then: { lit: replace-panel-switch, dark: automatic-fuse }',
      ],
    ],
  },
  inAlarm('finer-than-meter', 'no meter tells 0.5 mV from nothing', [
    'limits: below 0.1 V\n    then: { within: unit-supply',
    'limits: below 0.5 mV\n    then: { within: unit-supply',
  ]),
];

function inAlarm(rule: string, what: string, ...edits: Edit[]): Breakage {
  return { rule, file: alarm, what, edits };
}
