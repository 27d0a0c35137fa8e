import { type Parsed, quote, splice } from './problem.ts';
import type { Amount } from './reader.ts';
import type { Shape } from './shape.ts';

// What is said when the parts of a range or tolerance are readable but do not go together.

type Problem = Parsed<never>;

export function invertedRange(text: string, low: Amount, high: Amount): Problem {
  const [first, second] = [text.slice(low.start, low.end), text.slice(high.start, high.end)];
  const between = text.slice(low.end, high.start);
  const swapped = splice(text, low.start, high.end, `${second}${between}${first}`);
  const unitOnce = low.unit ? undefined : high.unit;
  return {
    problem: {
      id: 'inverted-range',
      message: `The range begins with its higher end: ${quote(`${first}${between}${second}`)}`,
      detail: unitOnce
        ? `The unit ${quote(unitOnce.text)} at the end counts for both numbers, so nothing lies in this range.`
        : `No reading is above ${quote(first)} and below ${quote(second)} at once.`,
      help: unitOnce ? 'Write the lower end first, or a unit after each number.' : 'Write the lower end first.',
      start: low.start,
      end: low.end,
      suggestion: unitOnce ? undefined : swapped,
    },
  };
}

export function emptyRange(text: string, low: Amount, high: Amount): Problem {
  const end = text.slice(high.start, high.end);
  return {
    problem: {
      id: 'empty-range',
      message: `Both ends of the range are ${quote(end)}`,
      detail: 'A range without width leaves no room for tolerances or for the meter.',
      help: 'Write two different ends, or one value with a tolerance.',
      start: low.start,
      end: high.end,
      suggestion: splice(text, low.start, high.end, end),
    },
  };
}

export function nominalOutside(text: string, shape: Shape & { is: 'nominal in range' }): Problem {
  const { nominal, low, high } = shape;
  const range = `${text.slice(low.start, low.end)} .. ${text.slice(high.start, high.end)}`;
  return {
    problem: {
      id: 'nominal-outside-range',
      message: `${quote(text.slice(nominal.start, nominal.end))} lies outside its range ${quote(range)}`,
      detail: 'The nominal value stands first and the range around it in brackets: `12.6 V (9 V .. 16 V)`.',
      help: 'Correct the nominal value or widen the range.',
      start: nominal.start,
      end: nominal.end,
    },
  };
}

export function negativeTolerance(text: string, side: Amount): Problem {
  return {
    problem: {
      id: 'negative-tolerance',
      message: `The tolerance ${quote(text.slice(side.start, side.end))} has the wrong sign`,
      detail: 'A tolerance is written `± 5 %`, or with two sides `+10 % / -5 %`.',
      help: 'Remove the minus sign.',
      start: side.start,
      end: side.end,
      suggestion: splice(text, side.start, side.start + 1, ''),
    },
  };
}

export function wideTolerance(text: string, side: Amount): Problem {
  return {
    problem: {
      id: 'wide-tolerance',
      message: `The tolerance ${quote(text.slice(side.start, side.end))} is wider than the value itself`,
      detail: 'With more than 100 % the value could be nothing at all, or have the other sign.',
      help: 'Correct the tolerance, or write both ends of the range: `100 Ω .. 900 Ω`.',
      start: side.start,
      end: side.end,
    },
  };
}

export function percentOfZero(text: string, side: Amount, of: Amount): Problem {
  return {
    problem: {
      id: 'percent-of-zero',
      message: `${quote(text.slice(side.start, side.end))} of ${quote(text.slice(of.start, of.end))} is nothing`,
      detail: 'A percentage of zero is zero, so the tolerance would have no effect.',
      help: 'Write the tolerance with a unit, for example `0 V ± 0.1 V`.',
      start: side.start,
      end: side.end,
    },
  };
}

export function percentOfTemperature(text: string, side: Amount): Problem {
  return {
    problem: {
      id: 'percent-of-temperature',
      message: `A temperature has no tolerance in percent: ${quote(text.slice(side.start, side.end))}`,
      detail: 'The zero of a temperature scale is a convention, so a share of a temperature means nothing.',
      help: 'Write the tolerance in kelvin or degrees, for example `20 °C ± 2 K`.',
      start: side.start,
      end: side.end,
    },
  };
}

/** `± 5` after a value in volts may be 5 % or 5 V, so nothing is suggested. */
export function toleranceUnit(text: string, side: Amount, symbol: string): Problem {
  const number = text.slice(side.start, side.numberEnd);
  return {
    problem: {
      id: 'missing-unit',
      message: `The unit is missing after ${quote(number)}`,
      detail: 'A tolerance is either a share of the value or a value itself.',
      help: `Write \`${number} %\` or \`${number} ${symbol}\`, whichever is meant.`,
      start: side.start,
      end: side.numberEnd,
    },
  };
}

export function noLimitHere(text: string, shape: Shape): Problem {
  return {
    problem: {
      id: 'unexpected-text',
      message: `${quote(text)} is a limit; a value is expected here`,
      detail: 'A limit says which readings pass. A value is what a part has: a number with a unit and a tolerance.',
      help: 'Write a value such as `12.6 V ± 0.4 V` or `4.7 kΩ ± 5 %`.',
      start: shape.is === 'comparison' ? text.search(/\S/) : shape.is === 'over limit' ? shape.start : 0,
      end: shape.is === 'comparison' ? shape.amount.end : shape.is === 'over limit' ? shape.end : text.length,
    },
  };
}
