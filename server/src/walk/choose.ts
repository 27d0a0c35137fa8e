import type { Limits } from '../analysis/limits.ts';
import { closest } from '../base/closest.ts';
import { name } from '../base/name.ts';
import { type Dimension, dimensionFacts } from '../base/quantity/dimension.ts';
import type { Limit } from '../base/quantity/limit.ts';
import { meterAmount } from '../base/quantity/meter-amount.ts';
import { parseQuantity } from '../base/quantity/quantity.ts';
import { regionOf, takes } from '../model/region.ts';
import type { Branch, StepData } from '../model/step.ts';
import { type Machine, type Question, questionOf } from './question.ts';

/** The branch that a reading takes and why, in words; or why it takes none. */
export type Choice =
  | { readonly branch: Branch; readonly why: string; readonly problem?: undefined }
  | { readonly problem: Problem };

/** Why a walk does not go on here. */
export interface Problem {
  /** One sentence without a full stop, names between backticks. */
  readonly message: string;
  readonly detail?: string;
  readonly help?: string;
  /** A reading that was surely meant. */
  readonly suggestion?: string;
  /** The procedure is at fault whatever is read, and its own rules say so. */
  readonly isInProcedure?: true;
}

/**
 * Which branch of a step a reading or an answer takes. The text is what somebody typed: `4.93 V`, `12,6 V`, `OL`, a state of scan
 * data, an answer as the step writes it. The order of the branches does not decide.
 */
export function choose(data: StepData, text: string, machine: Machine): Choice {
  const given = text.trim();
  const question = questionOf(data, machine);
  const [first] = data.branches;
  if (!first) return { problem: { message: 'The step does not say what comes next', isInProcedure: true } };
  if (question.ask === 'nothing') return { branch: first, why: '' };
  if (given === '') return { problem: { message: 'A reading is missing', help: wanted(question) } };
  const answered = data.branches.find(b => b.match.on === 'answer' && b.key.text === given);
  if (answered) return { branch: answered, why: `the answer is ${name(given)}` };
  switch (question.ask) {
    case 'number':
      return byNumber(data, given, question);
    case 'state':
      return byState(data, given, question);
    case 'answer':
      return byAnswer(data, given, question);
  }
}

function byNumber(data: StepData, text: string, { dimension, limit, limits }: Question & { ask: 'number' }): Choice {
  const read = readNumber(text, dimension);
  if ('problem' in read) return read;
  const { branches } = data;
  const leftOpen = branches.find(b => ['within', 'below', 'above'].includes(b.match.on));
  if (!limit && leftOpen) return { problem: unknownLimits(leftOpen, limits) };
  const regions = branches.map(branch => ({ branch, region: regionOf(branch.match, limit) }));
  const fitting = regions.filter(({ region }) => region && takes(region, read.value));
  const [taken, rival] = [fitting[0], fitting.find(f => f.branch.target?.text !== fitting[0]?.branch.target?.text)];
  if (taken && rival) return { problem: ambiguous(text, taken.branch, rival.branch) };
  if (taken) return { branch: taken.branch, why: `${name(text)} is ${limitInWords({ ...taken.region!, dimension })}` };
  const why = limit && !takes(limit, read.value) ? `${name(text)} is ${outsideInWords(limit, read.value)}` : undefined;
  return otherwise(data, text, why) ?? { problem: gap(text, branches, limit) };
}

/** `OL` is +∞; nobody minds how it is spelt. */
function readNumber(text: string, dimension: Dimension): { value: number } | { problem: Problem } {
  if (/^o\.?l\.?$/i.test(text)) return { value: Infinity };
  const { value, problem } = parseQuantity(text, dimension);
  if (problem) {
    const { message, detail, help, suggestion } = problem;
    return { problem: { message, detail, help, suggestion } };
  }
  return value;
}

function byState(data: StepData, text: string, { expected, known }: Question & { ask: 'state' }): Choice {
  const states = [...new Set([...expected, ...known])];
  if (known.length > 0 && !states.includes(text)) return { problem: unknownAnswer('state', text, states) };
  const within = data.branches.find(b => b.match.on === 'within');
  if (expected.includes(text) && within) return { branch: within, why: `${name(text)} is expected` };
  const why = `${name(text)} is not ${expected.map(text => name(text)).join(' or ')}`;
  const rest = otherwise(data, text, why);
  return rest ?? { problem: { message: `No branch takes ${name(text)}`, detail: `${why}.`, help: addOtherwise } };
}

function byAnswer(data: StepData, text: string, { answers }: Question & { ask: 'answer' }): Choice {
  const taken = data.branches.flatMap(b => (b.match.on === 'answer' ? [b.key.text] : []));
  return otherwise(data, text) ?? { problem: unknownAnswer('answer', text, taken.length > 0 ? taken : answers) };
}

function otherwise(data: StepData, text: string, why = `no other branch takes ${name(text)}`): Choice | undefined {
  const branch = data.branches.find(b => b.match.on === 'otherwise');
  return branch && { branch, why };
}

const addOtherwise = 'Add `otherwise`, or let a branch reach further.';

function gap(text: string, branches: readonly Branch[], limit: Limit | undefined): Problem {
  const taken = branches.map(branch => {
    const region = regionOf(branch.match, limit);
    const words = region && limit && branch.match.on !== 'limit' ? ` (${rangeInWords({ ...limit, ...region })})` : '';
    return `${name(branch.key.text)}${words}`;
  });
  const message = `No branch takes ${name(text)}`;
  return { message, detail: `The branches are ${taken.join(', ')}.`, help: addOtherwise };
}

function ambiguous(text: string, one: Branch, other: Branch): Problem {
  return {
    message: `Two branches take ${name(text)}: ${name(one.key.text)} and ${name(other.key.text)}`,
    detail: 'They lead to different places, and the order in which they are written does not decide.',
    help: 'Let one branch end where the other one begins.',
    isInProcedure: true,
  };
}

function unknownLimits({ key }: Branch, limits: Limits): Problem {
  return {
    message: `${name(key.text)} refers to limits that are not known`,
    detail: limits.state === 'not derived' ? `${limits.why}.` : undefined,
    help: 'Give the step `limits`, or a `specification` that has them.',
    isInProcedure: true,
  };
}

function unknownAnswer(what: string, text: string, among: readonly string[]): Problem {
  return {
    message: `The step has no ${what} ${name(text)}`,
    detail: among.length > 0 ? `Its ${what}s are ${among.map(text => name(text)).join(', ')}.` : undefined,
    suggestion: closest(text, among),
  };
}

function wanted(question: Question): string | undefined {
  if (question.ask !== 'number') return undefined;
  return `Write what the meter shows with its unit, for example \`${dimensionFacts[question.dimension].example}\`.`;
}

/** `4.71 V .. 4.93 V`, `below 0.3 V`, `OL`. */
export function rangeInWords(limit: Limit): string {
  return limit.low === Infinity ? 'OL' : limitInWords(limit).replace(/^within /, '');
}

/** `within 4.71 V .. 4.93 V`, `below 0.3 V`, `over the limit of the meter`. */
function limitInWords({ low, high, lowOpen, highOpen, dimension }: Limit): string {
  const end = (value: number) => meterAmount(value, dimension);
  if (low === Infinity) return 'over the limit of the meter';
  if (high === Infinity) return `${lowOpen ? 'above' : 'at least'} ${end(low)}`;
  if (low === -Infinity) return `${highOpen ? 'below' : 'at most'} ${end(high)}`;
  return `within ${end(low)} .. ${end(high)}`;
}

/** Of a reading that the limit does not take: `not within 4.71 V .. 4.93 V`, `below 11.5 V`. */
function outsideInWords(limit: Limit, value: number): string {
  const { low, high, lowOpen, highOpen } = limit;
  if (value === Infinity) return 'over the limit of the meter';
  if (low === Infinity) return 'not over the limit of the meter';
  if (high === Infinity) return limitInWords({ ...limit, low: -Infinity, high: low, highOpen: !lowOpen });
  if (low === -Infinity) return limitInWords({ ...limit, low: high, high: Infinity, lowOpen: !highOpen });
  return `not ${limitInWords(limit)}`;
}
