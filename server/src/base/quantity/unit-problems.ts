import { closest } from '../closest.ts';
import { type Dimension, dimensionFacts } from './dimension.ts';
import { type Parsed, quote, splice } from './problem.ts';
import type { Amount } from './reader.ts';
import type { Token } from './scan.ts';
import { type Unit, unitsOf } from './units.ts';

// What is said when a number has no unit, an unknown one or one of something else. Each points at one token.

type Problem = Parsed<never>;

export function missingUnit(text: string, amount: Amount, expected?: Dimension): Problem {
  const facts = dimensionFacts[expected ?? 'voltage'];
  const number = text.slice(amount.start, amount.numberEnd);
  const unit = expected && facts.obviousUnit;
  return {
    problem: {
      id: 'missing-unit',
      message: `The unit is missing after ${quote(number)}`,
      detail: expected ? `${capital(facts.noun)} is expected here, written in ${facts.offered}.` : undefined,
      help: unit
        ? `Write \`${number} ${unit}\`, or another unit if that is meant.`
        : `Write the unit, as in \`${facts.example}\`.`,
      start: amount.start,
      end: amount.numberEnd,
      suggestion: unit && splice(text, amount.numberEnd, amount.numberEnd, ` ${unit}`),
    },
  };
}

export function wrongUnit(text: string, amount: Amount, token: Token, found: Unit, expected: Dimension): Problem {
  const facts = dimensionFacts[expected];
  const written = text.slice(amount.start, amount.numberEnd);
  const value = amount.unit ? text.slice(amount.start, amount.end) : `${written} ${token.text}`;
  return {
    problem: {
      id: 'wrong-unit',
      message: `${quote(value)} is ${dimensionFacts[found.dimension].noun}; ${facts.noun} is expected`,
      detail:
        expected === 'number'
          ? `${quote(token.text)} is a unit of ${bare(found.dimension)}; a plain number has none.`
          : `${quote(token.text)} is a unit of ${bare(found.dimension)}; ${facts.noun} is written in ${facts.offered}.`,
      help:
        expected === 'number'
          ? `Write the number alone, as in \`${facts.example}\`.`
          : `Write ${facts.noun}, as in \`${facts.example}\`.`,
      start: token.start,
      end: token.end,
    },
  };
}

export function unitCase(text: string, token: Token, alike: readonly Unit[]): Problem {
  const spelled = alike.map(unit => spelledLike(unit, token.text));
  const [only] = spelled;
  const choices = spelled.map(spelling => `\`${spelling}\``).join(' or ');
  return {
    problem: {
      id: 'unit-case',
      message: `${quote(token.text)} is not read as a unit; ${choices} is`,
      detail: 'Small and capital letters differ in units: `m` is a thousandth and `M` a million.',
      help: `Write ${choices}${spelled.length > 1 ? ', whichever is meant' : ''}.`,
      start: token.start,
      end: token.end,
      suggestion: spelled.length === 1 && only ? splice(text, token.start, token.end, only) : undefined,
      certain: only !== undefined && !(/^m/i.test(only) && only.charAt(0) !== token.text.charAt(0)),
    },
  };
}

export function unknownUnit(text: string, token: Token, expected?: Dimension): Problem {
  const facts = expected && dimensionFacts[expected];
  const meant = token.text.length > 1 ? nearestSymbol(token.text, expected) : undefined;
  return {
    problem: {
      id: 'unknown-unit',
      message:
        expected === 'number'
          ? `A plain number has no unit, but ${quote(token.text)} follows`
          : `${quote(token.text)} is not a known unit`,
      detail: facts ? `${capital(facts.noun)} is expected here, written in ${facts.offered}.` : undefined,
      help: meant
        ? `Did you mean \`${meant}\`?`
        : `Write the value as in \`${(facts ?? dimensionFacts.voltage).example}\`.`,
      start: token.start,
      end: token.end,
      suggestion: meant && splice(text, token.start, token.end, meant),
    },
  };
}

export function belowFloor(text: string, amount: Amount, unit: Unit, floor: number): Problem {
  const { noun, example } = dimensionFacts[unit.dimension];
  const temperature = unit.dimension === 'temperature';
  return {
    problem: {
      id: 'below-zero',
      message: `${capital(noun)} cannot be ${quote(text.slice(amount.start, amount.end))}`,
      detail: temperature
        ? `Absolute zero is ${floor} °C, and nothing is colder.`
        : `${capital(noun)} is zero or more.`,
      help: `Write a value that can exist, for example \`${example}\`.`,
      start: amount.start,
      end: amount.numberEnd,
    },
  };
}

export function beyondNumbers(text: string, amount: Amount): Problem {
  return {
    problem: {
      id: 'unreadable-number',
      message: `${quote(text.slice(amount.start, amount.end))} is too large to compute with`,
      help: 'Write a value that can be measured, or `OL` for a reading beyond the meter.',
      start: amount.start,
      end: amount.numberEnd,
    },
  };
}

function spelledLike(unit: Unit, text: string): string {
  return unit.spellings.find(spelling => spelling.toLowerCase() === text.toLowerCase()) ?? unit.symbol;
}

/** The symbol of the unit that has the most similar spelling. */
function nearestSymbol(written: string, expected?: Dimension): string | undefined {
  const dimensions = expected ? [expected] : (Object.keys(dimensionFacts) as Dimension[]);
  const units = dimensions.flatMap(unitsOf);
  const nearest = closest(
    written,
    units.flatMap(unit => unit.spellings),
  );
  return units.find(unit => nearest !== undefined && unit.spellings.includes(nearest))?.symbol;
}

function bare(dimension: Dimension): string {
  return dimensionFacts[dimension].noun.replace(/^an? /, '');
}

function capital(sentence: string): string {
  return sentence.charAt(0).toUpperCase() + sentence.slice(1);
}
