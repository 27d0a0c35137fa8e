import type { Edit, Fix } from '../../base/finding.ts';
import type { Place } from '../../base/place.ts';
import type { SampleWalk } from '../../model/samples.ts';
import { missInWords } from '../../walk/miss-in-words.ts';
import type { SampleRun } from '../../walk/samples.ts';
import type { Finding, Rule } from '../rule.ts';
import { name } from '../wording.ts';
import { lampWalks } from './example.ts';
import { runsOf } from './runs.ts';

export const sampleMissesEnding: Rule = {
  id: 'sample-misses-ending',
  severity: 'error',
  group: 'samples',
  on: 'samples',
  needsWholeFile: true,
  title: 'A sample walk that does not come to its ending',
  explanation: `
A sample walk keeps readings that somebody saw, and the ending they must lead to. Walked through the procedure as it stands now, these
readings lead to another ending, or they stop on the way: a reading that no branch takes, an answer that the step does not have, a step
for which there is no reading.

Either the procedure was changed and now sends this case astray: correct the branch. Or the walk is out of date: correct the reading,
or name the ending that is right today.`,
  bad: lampWalks(`
walks:
  wire chafed where it passes the frame:
    readings: { look: all sound, lamp-voltage: 12.4 V }
    ends at: mend-W4
#            ^^^^^^^ error sample-misses-ending: The walk ends at \`replace-lamp\`, not at \`mend-W4\` [fix]
  meter on the wrong range:
    readings: { look: all sound, lamp-voltage: 12.4 Ω }
#                                              ^^^^^^ error sample-misses-ending: \`12.4 Ω\` is a resistance; a voltage is expected
    ends at: replace-lamp
  seen in a hurry:
    readings: { look: all sond }
#                     ^^^^^^^^ error sample-misses-ending: The step has no answer \`all sond\` [fix]
    ends at: replace-lamp
`),
  good: lampWalks(`
walks:
  wire chafed where it passes the frame:
    readings: { look: wire chafed }
    ends at: mend-W4
  lamp burnt out:
    readings: { look: all sound, lamp-voltage: 12.4 V }
    ends at: replace-lamp
  lamp burnt out, and bright with a new one:
    readings: { look: all sound, lamp-voltage: 12.4 V, try: bright }
    ends at: done
`),
  *check(view) {
    for (const [sample, runs] of runsOf(view)) {
      const missed = runs.find(run => !run.reached);
      if (missed) yield finding(sample, missed, runs.length > 1);
    }
  },
};

function finding(sample: SampleWalk, run: SampleRun, isOneOfSeveral: boolean): Finding {
  const { message, detail, help, suggestion } = missInWords(run)!;
  const place = placeOf(sample, run);
  const where = isOneOfSeveral ? `In variant ${name(run.variant)}. ` : '';
  const last = run.walk.passed.findLast(({ branch }) => branch);
  return {
    rule: 'sample-misses-ending',
    place,
    message,
    detail: where || detail ? `${where}${detail ?? ''}`.trim() : undefined,
    help,
    related: last && [{ place: last.branch!.key.place, message: 'This branch was the last that could be taken' }],
    fixes: fixes(run, place, suggestion),
  };
}

/** The reading at which the walk stops, or the ending that it does not reach. */
function placeOf(sample: SampleWalk, { miss }: SampleRun): Place {
  const reading = miss?.kind === 'refused' ? sample.readings.get(miss.step)?.reading : undefined;
  return reading?.place ?? sample.endsAt?.place ?? sample.place;
}

function fixes({ miss }: SampleRun, place: Place, suggestion: string | undefined): readonly Fix[] {
  if (miss?.kind === 'elsewhere') return [{ title: `End at ${name(miss.ending)}`, edits: [write(miss.ending, place)] }];
  if (suggestion === undefined) return [];
  return [{ title: `Write ${name(suggestion)}`, edits: [write(suggestion, place)] }];
}

/** What stands in quotes stays in quotes. */
function write(text: string, place: Place): Edit {
  const { unit, start } = place.span;
  const quote = /["']/.exec(unit.text.charAt(start))?.[0] ?? '';
  return { place, text: `${quote}${text}${quote}` };
}
