import { alarmSamples, type Breakage } from '../edit.ts';

/** Sample walks. */
export const samples: readonly Breakage[] = [
  {
    rule: 'sample-misses-ending',
    file: alarmSamples,
    what: 'with water in the bilge the walk comes to `pump-out`',
    edits: [['ends at: pump-out', 'ends at: nothing-wrong']],
  },
  {
    rule: 'unused-reading',
    file: alarmSamples,
    what: 'the walk never comes to `look`',
    edits: [['{ bilge: yes }', '{ bilge: yes, look: all sound }']],
  },
];
