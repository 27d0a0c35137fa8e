import { type Parsed, quote, splice } from './problem.ts';
import type { Amount } from './reader.ts';
import type { Token } from './scan.ts';

// What is said when a value is not written in the one obvious way, each with the text in that way.

type Problem = Parsed<never>;

export function missingEnd(which: 'lower' | 'upper', token: Token | Amount, suggestion?: string): Problem {
  const message = `The ${which} end of the range is missing`;
  const detail = 'A range has two ends, as in `4.71 V .. 4.93 V`.';
  const help = 'Write both ends; a limit with one end is written `at least 4.71 V` or `at most 4.93 V`.';
  return { problem: { id: 'missing-end', message, detail, help, start: token.start, end: token.end, suggestion } };
}

export function rangeMark(text: string, mark: Token): Problem {
  return {
    problem: {
      id: 'range-mark',
      message: `The ends of a range are parted by \`..\`, not by ${quote(mark.text)}`,
      detail: 'A dash can be taken for a minus sign, so a range is written `4.71 V .. 4.93 V`.',
      help: 'Write `..` between the two ends.',
      start: mark.start,
      end: mark.end,
      suggestion: `${text.slice(0, mark.start).trimEnd()} .. ${text.slice(mark.end).trimStart()}`,
      certain: true,
    },
  };
}

/** `between 4.71 V and 4.93 V`: the first word goes; the second is a mark to correct of its own. */
export function rangeWord(text: string, word: Token): Problem {
  return {
    problem: {
      id: 'range-mark',
      message: `A range is written with \`..\` and without ${quote(word.text)}`,
      detail: 'One way of writing keeps ranges readable at a glance: `4.71 V .. 4.93 V`.',
      help: `Remove ${quote(word.text)} and write \`..\` between the two ends.`,
      start: word.start,
      end: word.end,
      suggestion: splice(text, word.start, word.end, '').trim(),
      certain: true,
    },
  };
}

/** `9 V .. 16 V nominal 12.6 V` is readable, but a nominal value stands first. */
export function nominalBehind(text: string, low: Amount, word: Token): Problem {
  const nominal = text.slice(word.end).trim();
  const range = text.slice(low.start, word.start).trim();
  return {
    problem: {
      id: 'unexpected-text',
      message: 'A nominal value stands before its range, which follows in brackets',
      detail: 'With the nominal value first it reads as a data sheet prints it: `12.6 V (9 V .. 16 V)`.',
      help: `Write ${quote(nominal)} first and ${quote(range)} in brackets behind it.`,
      start: word.start,
      end: word.end,
      suggestion: `${nominal} (${range})`,
      certain: true,
    },
  };
}

export function oneSided(text: string, sign: Token, amount: Amount): Problem {
  const unit = amount.unit ? ` ${amount.unit.text}` : '';
  const other = `${sign.text === '+' ? '-' : '+'}0${unit}`;
  return {
    problem: {
      id: 'missing-end',
      message: `The tolerance ${quote(text.slice(amount.start, amount.end))} has only one side`,
      detail: 'A tolerance with two different sides is written `+10 % / -5 %`.',
      help: `Write the other side as well, for example \`${other}\`, or \`±\` for both.`,
      start: amount.start,
      end: amount.end,
      suggestion: `${text.slice(0, amount.end)} / ${other}${text.slice(amount.end).replace(/^\s*\/\s*$/, '')}`,
    },
  };
}

export function unclosedBracket(text: string, last: Amount, atEnd: boolean): Problem {
  return {
    problem: {
      id: 'unexpected-text',
      message: 'The bracket around the range is not closed',
      help: 'Write a nominal value with its range as `12.6 V (9 V .. 16 V)`.',
      start: last.start,
      end: last.end,
      suggestion: atEnd ? `${text.slice(0, last.end)})` : undefined,
    },
  };
}
