import type { MeterReading } from '../../analysis/electrical.ts';
import type { ProcedureView } from '../../analysis/view.ts';
import type { Finding } from '../rule.ts';
import { type Judged, judgedSteps, type Outcome } from './judged.ts';

type In<S extends MeterReading['state']> = Outcome & { readonly reading: Extract<MeterReading, { state: S }> };

/** A finding for each step where the circuit answers with a state of that kind, made from the outcomes that have it. */
export function whereReading<S extends MeterReading['state']>(
  state: S,
  find: (judged: Judged, outcomes: readonly [In<S>, ...In<S>[]]) => Finding | undefined,
): (view: ProcedureView) => Finding[] {
  return view =>
    judgedSteps(view).flatMap(judged => {
      const [first, ...rest] = judged.outcomes.filter((o): o is In<S> => o.reading.state === state);
      return (first && find(judged, [first, ...rest])) ?? [];
    });
}
