import { situationInWords } from '../analysis/words/situation.ts';
import { formatRange } from '../base/quantity/format.ts';
import type { Next, RankedTest } from '../planning/next.ts';
import { harmless, type Paint, plain } from './paint.ts';

/** The ranked tests of a step for a reader at a terminal, variant by variant. */
export function nextAsText(all: readonly Next[], paint: Paint = plain): string {
  if (all.length === 0) return 'No way leads to this step in these variants\n';
  return `${all.map(one => oneAsText(one, paint)).join('\n\n')}\n`;
}

function oneAsText(one: Next, paint: Paint): string {
  const { step, variant, tests } = one;
  const head = `${paint('bold', harmless(`${step} (${variant})`))}: ${suspectsInWords(one)}`;
  if (tests.length === 0) return `${head}\n  ${nothingTells}`;
  const rows = tests.map(test => {
    const { takes, tells, aMinute, inAll, shows } = testInWords(test);
    return [test.title, takes, tells, aMinute, inAll, shows];
  });
  const heads = ['test', 'takes', 'tells', 'a minute', 'minutes in all', 'shows'];
  const widths = heads.map((text, i) => Math.max(text.length, ...rows.map(row => row[i]!.length)));
  const line = (cells: readonly string[]) =>
    cells
      .map((cell, i) => cell.padEnd(widths[i]!))
      .join('  ')
      .trimEnd();
  return [
    head,
    paint('dim', `  ${line(heads)}`),
    ...rows.map(row => harmless(`  ${line(row)}`)),
    paint(
      'dim',
      '  What a test tells looks one step ahead; the minutes in all are the mean until one place is left, done in the best order after it.',
    ),
  ].join('\n');
}

export const nothingTells = 'Nothing that can be done here tells them apart.';

/** `14 suspects at 6 places, with key at run`. */
export function suspectsInWords({ situation, rest, suspects }: Next): string {
  const owners = new Set(suspects.map(({ owner }) => owner));
  const when = situationInWords(situation, rest).replaceAll('`', '');
  return `${suspects.length} suspects at ${owners.size} places${when && `, with ${when}`}`;
}

/** The figures of one test as they are read. */
export function testInWords(test: RankedTest) {
  return {
    takes: `${rounded(test.minutes)} min`,
    tells: `${rounded(test.bits)} bit`,
    aMinute: Number.isFinite(test.bitsPerMinute) ? rounded(test.bitsPerMinute) : 'at once',
    inAll: totalInWords(test),
    shows: splitsInWords(test),
  };
}

function totalInWords({ total: { atLeast, atMost } }: RankedTest): string {
  const [low, high] = [rounded(atLeast), rounded(atMost)];
  return low === high ? low : `${low} to ${high}`;
}

function splitsInWords({ splits }: RankedTest): string {
  return splits
    .map(({ outcome: { range, word }, suspects }) => {
      const shown = range ? formatRange(range.low, range.high, 'voltage', 'outward') : word || 'no data';
      return `${shown} (${suspects})`;
    })
    .join(', ');
}

function rounded(value: number): string {
  return String(Math.round(value * 100) / 100);
}

/** The same for other programs; `DEVELOPERS.md` describes the shape. */
export function nextAsJson(all: readonly Next[]): string {
  const steps = all.map(({ situation, rest: _, tests, ...one }) => ({
    ...one,
    set: Object.fromEntries(situation.states),
    apart: [...situation.apart],
    // JSON has no infinity: what takes no time tells all it tells at once.
    tests: tests.map(test => ({
      ...test,
      bitsPerMinute: Number.isFinite(test.bitsPerMinute) ? test.bitsPerMinute : null,
    })),
  }));
  return `${JSON.stringify({ version: 1, steps }, undefined, 2)}\n`;
}
