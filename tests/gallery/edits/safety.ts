import { type Breakage, batteryFlat, bilge } from '../edit.ts';

/** What can harm the technician or the machine. */
export const safety: readonly Breakage[] = [
  {
    rule: 'hazard-without-caution',
    file: batteryFlat,
    what: 'nothing says that the charger carries mains voltage',
    edits: [
      [
        'replace-charger: { replace: [U1], confirm: confirm, cautions: [{ danger: Lock the mains out before opening the charger }] }',
        'replace-charger: { replace: [U1], confirm: confirm }',
      ],
    ],
  },
  {
    rule: 'unplugged-with-power-on',
    file: batteryFlat,
    what: 'the fuse is taken out while the charger is on',
    edits: [
      [
        'mains: absent }\n    remove: [F2]\n    do: Switch the charger off and take its fuse out',
        'mains: present }\n    remove: [F2]\n    do: Take the fuse out',
      ],
    ],
  },
  {
    rule: 'unmarked-high-voltage',
    file: bilge,
    what: 'a battery of 128 V is not marked',
    edits: [['voltage: 12.8 V ± 0.4 V', 'voltage: 128 V ± 4 V']],
  },
];
