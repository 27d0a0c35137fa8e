import { alarm, type Breakage, type Edit, loaderDropsOut, pump } from '../edit.ts';

/** The way through the steps. */
export const structure: readonly Breakage[] = [
  inAlarm('no-system', 'the procedure applies to no system', ['applies to:\n  bilge.system.yaml: all\n', '']),
  inAlarm('no-symptom', 'the procedure starts from nothing', [/starts from:\n(?: {2}.*\n)+/, '']),
  inAlarm('no-steps', 'the file ends where the steps should begin', [/start: bilge\n[\s\S]*/, '']),
  inAlarm('missing-entry', 'nothing says which step comes first', ['start: bilge\n', '']),
  inAlarm('unreachable-step', 'no branch leads to `look-again`', [
    '  sounding-now:\n',
    '  look-again: { inspect: [X6], then: { wet: mend-float-cable, dry: which-signal } }\n  sounding-now:\n',
  ]),
  inAlarm('unreachable-ending', 'no branch leads to `ask-the-maker`', [
    '  nothing-wrong: {',
    '  ask-the-maker: { refer: Inside the alarm unit }\n  nothing-wrong: {',
  ]),
  {
    rule: 'target-not-in-variant',
    file: loaderDropsOut,
    what: 'without a relay there is no `relay-output`',
    edits: [
      [
        '      within: feed-input\n      otherwise: fuse-output\n',
        '      within: relay-output\n      otherwise: fuse-output\n',
      ],
    ],
  },
  inAlarm('missing-branches', 'nothing says what comes after `alarm-battery`', [
    '    then: { within: mend-alarm-feed, otherwise: alarm-battery-load }\n',
    '',
  ]),
  inAlarm('dead-branch', 'the last answer leads nowhere', ['      neither now: line-dry\n', '      neither now:\n']),
  inAlarm('single-answer', 'the confirmation can only succeed', [/ {6}sounds on or stays silent: .*\n/, '']),
  inAlarm('reading-makes-no-difference', 'both branches lead to `mend-W46`', [
    'then: { within: replace-alarm-unit-apart-2, otherwise: mend-W46 }',
    'then: { within: mend-W46, otherwise: mend-W46 }',
  ]),
  inAlarm('loop-without-exit', '`wait` and `wait-on` only lead to each other', [
    '      neither now: line-dry\n',
    [
      '      neither now: wait',
      '  wait: { do: Wait half an hour, then: wait-on }',
      '  wait-on: { do: Wait another hour, then: wait }',
      '',
    ].join('\n'),
  ]),
  {
    rule: 'inspection-after-measuring',
    file: pump,
    what: 'the first step takes a reading, and only then somebody looks',
    edits: [['start: look', 'start: float-output']],
  },
  inAlarm('missing-specification', 'nothing says which reading is good', [
    '    limits: OL\n    provoke: { wiggle: [W46] }\n    then: { within: replace-alarm-unit-apart-2, otherwise: mend-W46 }',
    '    provoke: { wiggle: [W46] }\n    then: mend-W46',
  ]),
  inAlarm('ending-names-nothing', 'nothing is named that should be mended', ['{ mend: [W35],', '{ mend: [],']),
  inAlarm('missing-confirmation', 'nothing confirms that the repair helped', [
    '{ mend: [W35], confirm: confirm }',
    '{ mend: [W35] }',
  ]),
  inAlarm('confirmation-without-end', 'the confirming step never says that the boat is repaired', [
    '{ mend: [W35], confirm: confirm }',
    '{ mend: [W35], confirm: unit-negative }',
  ]),
];

function inAlarm(rule: string, what: string, ...edits: Edit[]): Breakage {
  return { rule, file: alarm, what, edits };
}
