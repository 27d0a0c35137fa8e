import type { MeasureKind } from './step.ts';

/** What is seen of a test lamp, and heard of a continuity test. */
export const lampAnswers = ['lit', 'dim', 'dark'] as const;
export const soundAnswers = ['beeps', 'silent'] as const;

/** The words that such a measurement may answer with; none where it only shows a number. */
export function answersOf(measure: MeasureKind): readonly string[] {
  if (measure === 'test lamp') return lampAnswers;
  return measure === 'continuity' ? soundAnswers : [];
}
