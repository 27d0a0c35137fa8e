import { dimensionFacts } from './dimension.ts';
import { type Parsed, parsing, quote, splice } from './problem.ts';
import { parseQuantity } from './quantity.ts';

/**
 * Reads limits that are left to the circuit: `from the circuit`, `from the circuit, with 2 % margin`. The value is the margin, a
 * share of each end. Undefined for a text that speaks of no circuit, which is a limit of its own or none at all.
 */
export function parseDerived(text: string): Parsed<number> | undefined {
  return speaksOfTheCircuit.test(text) ? parsing(text, read) : undefined;
}

/** Writes it so that `parseDerived` reads the same margin. */
export function formatDerived(marginRatio: number): string {
  return marginRatio === 0
    ? withoutMargin
    : `${withoutMargin}, with ${Number((marginRatio * 100).toPrecision(6))} % margin`;
}

const withoutMargin = 'from the circuit';

/** `from 4 V` is a range with a word too many. */
const speaksOfTheCircuit = /\b(circuit|margin)\b|^\s*(from(?!\s*[-−+.]?\s*\d)|derived|computed|calculated)\b/i;

/** What people write when they mean it: the source, then words around a margin. */
const source = /^\s*(derived|computed|calculated|taken)?\s*(from|by|with)?\s*(the\s+)?circuit\b/i;
const amount = /[-−+]?\s*\d[\d.,]*(\s*(?!margin|tolerance)[^\s\d.,]+)?/i;
const wordsAround = /^[,;:±+\s]*((with|plus|and|a|of|margin|tolerance)\b[\s±+]*)*$/i;

function read(text: string): Parsed<number> {
  const head = source.exec(text)?.[0];
  if (head === undefined) return unclear(text);
  const rest = text.slice(head.length);
  if (rest.trim() === '') return inOneWay(text, 0);
  const found = amount.exec(rest);
  if (!found) return unclear(text);
  const end = found.index + found[0].length;
  if (!wordsAround.test(rest.slice(0, found.index)) || !wordsAround.test(rest.slice(end))) return unclear(text);
  const margin = marginOf(text, head.length + found.index, head.length + end);
  return margin.problem ? margin : inOneWay(text, margin.value);
}

function marginOf(text: string, start: number, end: number): Parsed<number> {
  const written = text.slice(start, end);
  const sign = /^[-−]\s*/.exec(written)?.[0] ?? '';
  if (sign !== '') {
    return {
      problem: {
        id: 'negative-tolerance',
        message: `The margin ${quote(written)} has the wrong sign`,
        detail: 'A margin makes the limits wider at both ends, so it has no sign of its own.',
        help: 'Write the margin without a sign.',
        start,
        end,
        suggestion: splice(text, start, start + sign.length, ''),
      },
    };
  }
  const { value: ratio, problem } = parseQuantity(written, 'ratio');
  if (problem) {
    const { suggestion } = problem;
    const [from, to] = [start + problem.start, start + problem.end];
    const other = problem.id === 'wrong-unit' ? parseQuantity(written).value : undefined;
    const message = other
      ? `${quote(written)} is ${dimensionFacts[other.dimension].noun}; a margin is in percent`
      : problem.message;
    const detail = 'Each end of the limits goes outward by this share of it.';
    const help = 'Write the margin in percent, for example `from the circuit, with 2 % margin`.';
    const whole = suggestion === undefined ? undefined : splice(text, start, end, suggestion);
    return { problem: { ...problem, message, detail, help, start: from, end: to, suggestion: whole } };
  }
  if (ratio.value < 1) return { value: ratio.value };
  const message = `A margin of ${quote(written)} lets every reading pass`;
  const help = 'Write the margin in percent, mostly a few.';
  return { problem: { id: 'wide-tolerance', message, help, start, end } };
}

/** There is one way to write it. */
function inOneWay(text: string, marginRatio: number): Parsed<number> {
  const written = text.trim();
  const right = formatDerived(marginRatio);
  const isRight =
    withoutBlanks(written) === withoutBlanks(right) || /^from the circuit, with [\d.,]+ ?% margin$/.test(written);
  if (isRight) return { value: marginRatio };
  const start = text.indexOf(written);
  return {
    problem: {
      id: 'limit-word',
      message: `${quote(written)} is written \`${right}\``,
      detail: 'Limits that the circuit gives are written in one way, so that everybody knows them again.',
      help: `Write \`${right}\`.`,
      start,
      end: start + written.length,
      suggestion: right,
      certain: true,
    },
  };
}

function withoutBlanks(text: string): string {
  return text.replace(/\s+/g, '');
}

function unclear(text: string): Parsed<number> {
  const written = text.trim();
  const start = text.indexOf(written);
  return {
    problem: {
      id: 'unexpected-text',
      message: `${quote(written)} does not say where the limits come from`,
      detail: 'Limits are a range such as `4.71 V .. 4.93 V`, or those that the circuit gives.',
      help: 'Write `from the circuit` or `from the circuit, with 2 % margin`.',
      start,
      end: start + written.length,
      suggestion: /\d/.test(written) ? undefined : withoutMargin,
    },
  };
}
