import { unusedReadings } from '../../walk/samples.ts';
import type { Rule } from '../rule.ts';
import { name } from '../wording.ts';
import { lampWalks } from './example.ts';
import { runsOf } from './runs.ts';

export const unusedReading: Rule = {
  id: 'unused-reading',
  severity: 'warning',
  group: 'samples',
  on: 'samples',
  needsWholeFile: true,
  title: 'A reading that its sample walk never needs',
  explanation: `
The walk comes to its ending without passing this step. Whoever wrote the reading thought that the procedure asks for it; either the
procedure has become shorter since, or the walk takes another way than was meant.

Delete the reading, or correct the one that leads past it.`,
  bad: lampWalks(`
walks:
  wire chafed where it passes the frame:
    readings: { look: wire chafed, lamp-voltage: 0 V }
#                                  ^^^^^^^^^^^^ warning unused-reading: The walk never comes to \`lamp-voltage\`
    ends at: mend-W4
`),
  good: lampWalks(`
walks:
  wire chafed where it passes the frame:
    readings: { look: wire chafed }
    ends at: mend-W4
`),
  *check(view) {
    for (const [sample, runs] of runsOf(view)) {
      if (runs.length === 0 || !runs.every(run => run.reached)) continue;
      const [first, ...others] = runs.map(unusedReadings);
      for (const step of first.filter(step => others.every(unused => unused.includes(step)))) {
        if (!view.procedure?.procedure.steps.has(step)) continue;
        yield {
          rule: 'unused-reading',
          place: sample.readings.get(step)!.step.place,
          message: `The walk never comes to ${name(step)}`,
          detail: `It ends at ${name(sample.endsAt!.text)} before that step.`,
          help: 'Delete the reading, or correct the one that leads past it.',
        };
      }
    }
  },
};
