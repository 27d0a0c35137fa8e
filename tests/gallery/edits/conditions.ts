import { alarm, type Breakage, type Edit, loaderDropsOut } from '../edit.ts';

/** What is set, and what is apart, along the way through the steps. */
export const conditions: readonly Breakage[] = [
  inAlarm('needs-not-met', 'nobody has pressed the button on the way to `buzzer-wire`', [
    'needs: { S5: released }\n    measure: resistance\n    red: A2.5',
    'needs: { S5: pressed }\n    measure: resistance\n    red: A2.5',
  ]),
  inLoader('state-not-possible', 'the engine runs with the key at off', [
    'set: { key: run, engine: running, seat: occupied, S5: released, S6: on }\n    cautions:\n      - warning: Keep everybody away from the attachment while it turns\n    operate: Press `on`, let the button go, and drive over rough ground for ten minutes',
    'set: { engine: running, seat: occupied, S5: released, S6: on }\n    cautions:\n      - warning: Keep everybody away from the attachment while it turns\n    operate: Press `on`, let the button go, and drive over rough ground for ten minutes',
  ]),
  inLoader('state-lost-its-need', 'the key goes to off while the engine runs', [
    'set: { engine: stopped, key: off }\n    cautions',
    'set: { key: off }\n    cautions',
  ]),
  inLoader('left-apart', 'the plug of the keypad stays off for good', [
    'could not be confirmed, connect: [S6] }',
    'could not be confirmed }',
  ]),
  inAlarm('apart-when-operated', 'the buzzer is tried with the alarm unit unplugged', [
    'otherwise: mend-W44 }\n',
    'otherwise: try-it }\n  try-it: { operate: Switch the alarm on, then: { silent: mend-W44, sounds: buzzer-ohms } }\n',
  ]),
  inAlarm('connect-what-is-together', '`X6` was never taken apart on the way to `mend-W35`', [
    'mend-W35: { mend: [W35], confirm',
    'mend-W35: { mend: [W35], connect: [X6], confirm',
  ]),
  inAlarm('disconnect-what-is-apart', '`X6` is apart since the step before', [
    'disconnect: [S5]',
    'disconnect: [S5, X6]',
  ]),
];

function inAlarm(rule: string, what: string, ...edits: Edit[]): Breakage {
  return { rule, file: alarm, what, edits };
}

function inLoader(rule: string, what: string, ...edits: Edit[]): Breakage {
  return { rule, file: loaderDropsOut, what, edits };
}
