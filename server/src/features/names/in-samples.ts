import type { Procedure } from '../../model/procedure.ts';
import type { Samples } from '../../model/samples.ts';
import type { System } from '../../model/system.ts';
import { flowLookup, movedFirst } from './in-procedure.ts';
import { lookupIn } from './lookup.ts';
import { mentions, readState } from './mention.ts';
import type { Occurrence } from './thing.ts';

/** Every name in a file of sample walks. */
export function namesInSamples(samples: Samples, procedure: Procedure, systems: readonly System[]): Occurrence[] {
  const flow = flowLookup(procedure);
  const lookups = systems.map(lookupIn);
  return samples.walks.flatMap(walk => [
    ...lookups.flatMap(lookup => mentions(walk.variant, lookup.variant)),
    ...mentions(walk.startsFrom, flow.entry),
    ...mentions(walk.endsAt, flow.target),
    ...[...walk.readings.values()].flatMap(({ step, reading }) => [
      ...mentions(step, flow.target),
      ...mentions(reading, text => flow.answer(step.text, text)),
      ...lookups.flatMap(lookup => {
        const action = procedure.steps.get(step.text)?.data.action;
        if (action?.verb === 'record') return mentions(reading, movedFirst(lookup));
        return action ? mentions(reading, readState(action, lookup)) : [];
      }),
    ]),
  ]);
}
