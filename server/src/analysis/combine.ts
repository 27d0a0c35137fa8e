import type { PartValue } from '../circuit/reading.ts';
import type { MeterReading, NumberReading } from './electrical.ts';

/** What one state of the machine shows, and whether every combination of values in its ranges leads to that state. */
export interface InState {
  readonly reading: MeterReading;
  readonly sure: boolean;
  /** Values that lead to the state and need not have a say in the reading itself. */
  readonly cut: readonly PartValue[];
}

/**
 * What can be shown in any of several states, the first of which is that at nominal values. A state that only some combinations lead to
 * counts for the ends that nothing passes, but not for those that are reached.
 */
export function combine(all: readonly InState[]): MeterReading {
  const [first, ...others] = all;
  if (!first || others.length === 0) return first!.reading;
  const nominal = first.reading;
  if (nominal.state !== 'number') return nominal;
  const numbers = all.flatMap(({ reading, sure, cut }) =>
    reading.state === 'number' ? [{ reading: withCut(reading, cut), sure }] : [],
  );
  const lowest = least(numbers, ({ reading }) => reading.low);
  const highest = least(numbers, ({ reading }) => -reading.high);
  const reached = numbers.filter(({ sure }) => sure).map(({ reading }) => reading);
  const attained = {
    low: Math.min(nominal.nominal, ...reached.map(one => one.attained.low)),
    high: Math.max(nominal.nominal, ...reached.map(one => one.attained.high)),
  };
  const [low, high] = [lowest.reading.low, highest.reading.high];
  // An end that is the nominal value itself takes no values of its own.
  const atLow = reached.find(one => one.attained.low === attained.low);
  const atHigh = reached.find(one => one.attained.high === attained.high);
  return {
    ...nominal,
    low,
    high,
    attained,
    exact: attained.low === low && attained.high === high,
    lowAt: atLow?.lowAt ?? [],
    highAt: atHigh?.highAt ?? [],
  };
}

/** The cut belongs to the combination behind each end, unless that names the value already. */
function withCut(reading: NumberReading, cut: readonly PartValue[]): NumberReading {
  const and = (named: readonly PartValue[]) => [...named, ...cut.filter(({ id }) => !named.some(one => one.id === id))];
  return cut.length === 0 ? reading : { ...reading, lowAt: and(reading.lowAt), highAt: and(reading.highAt) };
}

interface InNumber {
  readonly reading: NumberReading;
  readonly sure: boolean;
}

function least(numbers: readonly InNumber[], worth: (one: InNumber) => number): InNumber {
  return numbers.reduce((best, one) => (worth(one) < worth(best) ? one : best));
}
