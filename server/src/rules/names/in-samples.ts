import type { SamplesView } from '../../analysis/view.ts';
import type { Finding } from '../../base/finding.ts';
import { name } from '../wording.ts';
import { unknownName } from './unknown.ts';

/** Names in sample walks that their procedure does not have. */
export function* unknownInSamples({ samples, procedure: view }: SamplesView): Generator<Finding> {
  if (!view || view.tree.problems.length > 0) return;
  const { steps, endings, entries } = view.procedure;
  const ways = entries.flatMap(e => [e.symptom?.text, e.code?.text]).filter(text => text !== undefined);
  const variants = [...new Set(view.cases.map(c => c.variant))];
  for (const { variant, startsFrom, readings, endsAt } of samples.walks) {
    if (variant && variants.length > 0 && !variants.includes(variant.text)) {
      const message = `The procedure applies to no variant ${name(variant.text)}`;
      yield unknownName({
        ref: variant,
        message,
        among: variants,
        amongAre: 'It applies to',
        otherwise: 'add the variant',
      });
    }
    if (startsFrom && !ways.includes(startsFrom.text)) {
      const message = `The procedure does not start from ${name(startsFrom.text)}`;
      yield unknownName({
        ref: startsFrom,
        message,
        among: ways,
        amongAre: 'It starts from',
        otherwise: 'add the symptom or code',
      });
    }
    for (const { step } of readings.values()) {
      if (steps.has(step.text)) continue;
      const message = `No step is called ${name(step.text)}`;
      yield unknownName({ ref: step, message, among: [...steps.keys()], otherwise: 'delete the reading' });
    }
    if (endsAt && !endings.has(endsAt.text)) {
      const message = `No ending is called ${name(endsAt.text)}`;
      yield unknownName({
        ref: endsAt,
        message,
        among: [...endings.keys()],
        otherwise: 'name the ending that must be reached',
      });
    }
  }
}
