import type { Problem } from '../../server/src/sequence/problem.ts';

export interface Shape {
  suspects: number;
  tests: number;
  /** How many suspects there are for each owner, on average. */
  perOwner: number;
  /** The most outcomes that a test has. */
  outcomes: number;
  /** How often, from 0 to 1, what a suspect shows is open. */
  open: number;
  minutes: readonly number[];
}

/** A problem by chance; weights from 0 on, so that some suspects count for nothing. */
export function randomProblem(random: () => number, shape: Shape): Problem {
  const pick = (count: number) => Math.floor(random() * count);
  const owners = Math.max(1, Math.round(shape.suspects / shape.perOwner));
  return {
    suspects: Array.from({ length: shape.suspects }, () => ({ weight: pick(20), owner: `owner ${pick(owners)}` })),
    tests: Array.from({ length: shape.tests }, () => {
      const count = 2 + pick(shape.outcomes - 1);
      return {
        minutes: shape.minutes[pick(shape.minutes.length)]!,
        outcomes: Array.from({ length: shape.suspects }, () => {
          if (random() >= shape.open) return [pick(count)];
          return Array.from({ length: count }, (_, outcome) => outcome).filter(() => random() < 0.7);
        }),
      };
    }),
  };
}
