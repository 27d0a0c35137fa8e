import { describe, expect, it } from 'vitest';
import type { Ranged } from '../../server/src/base/ranged.ts';
import { type NumberReading, read } from '../../server/src/circuit/reading.ts';
import { type Line, netlist } from '../support/circuits.ts';
import published from './worstcase.json' with { type: 'json' };

/**
 * Published tolerance analyses. Where one is of a formula and not of one network (an ideal amplifier, a product of three factors), each
 * factor is the reading of a network of its own, and the ends are those of the published formula over the ends of the readings, which are
 * independent. A root-sum-square is a matter of statistics and no bound: only its worst case is looked at.
 */
const example = (id: string) => published.examples.find(candidate => candidate.id === id)!;
const parametersOf = (id: string) => example(id).parameters as unknown as Record<string, [number, number]>;
const ends = (low: number, high: number): Ranged => ({ low, nominal: (low + high) / 2, high });
const ideal = { measure: 'voltage', inputOhms: Number.POSITIVE_INFINITY } as const;

function shown(lines: Line[], red: string, black: string): NumberReading {
  const { network, node } = netlist(lines);
  const reading = read(network, { ...ideal, red: node(red), black: node(black) });
  if (reading.state !== 'number') throw new Error(JSON.stringify(reading));
  return reading;
}

describe('published worst cases', () => {
  const divider = example('mathematica-10pct');
  it(`divider of 100k and 30k, ±10 %: ${divider.citation}`, () => {
    const { Ra, Rb } = divider.parameters as { Ra: [number, number]; Rb: [number, number] };
    const reading = shown(
      [
        ['V1', 'a', '0', 5],
        ['R1', 'a', 'b', ends(...Ra)],
        ['R2', 'b', '0', ends(...Rb)],
      ],
      'b',
      '0',
    );
    expect(Math.abs(reading.low - divider.published_min!)).toBeLessThanOrEqual(divider.tolerance);
    expect(Math.abs(reading.high - divider.published_max!)).toBeLessThanOrEqual(divider.tolerance);
    expect(reading.exact).toBe(true);
  });

  const sum = example('maxima-sum');
  it(`two resistances with a tolerance of their own and a common one: ${sum.citation}`, () => {
    // The common term is a source of its own here: the ends of the sum are those with it at one end.
    const total = (t3: number) => {
      const value = (ohms: number): Ranged => ends(ohms * 0.99 * (1 + 0.02 * t3), ohms * 1.01 * (1 + 0.02 * t3));
      const { network, node } = netlist([
        ['R1', 'a', 'b', value(1000)],
        ['R2', 'b', 'c', value(2000)],
      ]);
      const reading = read(network, {
        measure: 'resistance',
        red: node('a'),
        black: node('c'),
        leadsOhms: ends(0, 0),
        overLimitOhms: 60e6,
      });
      return reading as NumberReading;
    };
    expect(Math.abs(total(0).nominal - sum.published_nominal!)).toBeLessThanOrEqual(sum.tolerance);
    expect(Math.abs(total(-1).low - sum.published_min!)).toBeLessThanOrEqual(sum.tolerance);
    expect(Math.abs(total(1).high - sum.published_max!)).toBeLessThanOrEqual(sum.tolerance);
  });

  const load = example('liec-max-power');
  it(`current and voltage of the load are at the ends of its range although its power is not: ${load.citation}`, () => {
    const [low, high] = load.parameters.RL!;
    const lines: Line[] = [
      ['V1', 'a', '0', 11.2],
      ['R1', 'a', 'b', 0.8],
      ['R2', 'b', '0', ends(low!, high!)],
    ];
    const volts = shown(lines, 'b', '0');
    const watts = (v: number, ohms: number) => v ** 2 / ohms;
    expect(Math.abs(watts(volts.low, low!) - load.published_min!)).toBeLessThanOrEqual(load.tolerance);
    // Published beside it: 38.22 W at the other end, and 39.2 W in between.
    expect(watts(volts.high, high!)).toBeCloseTo(38.22, 2);
    expect(watts(volts.nominal, 0.8)).toBeCloseTo(load.published_max!, 2);
  });

  it(`the slope that turns: ${published.counterexample.text}`, () => {
    for (const [r4, ends4] of [
      [300, published.counterexample['R4=300']],
      [900, published.counterexample['R4=900']],
    ] as const) {
      for (const r3 of ['90', '110'] as const) {
        const reading = shown(
          [
            ['V1', '1', '0', 24],
            ['R1', '1', '2', 150],
            ['R2', '1', '3', 50],
            ['R3', '2', '3', Number(r3)],
            ['R4', '2', '0', r4],
            ['R5', '3', '0', 250],
          ],
          '2',
          '0',
        );
        expect(reading.nominal).toBeCloseTo(ends4[r3], 9);
      }
    }
  });

  it('naive interval arithmetic is wider than the range', () => {
    // Beside the same divider: 5 Rb / (Ra + Rb) with each Rb on its own.
    const { Ra, Rb } = divider.parameters as { Ra: [number, number]; Rb: [number, number] };
    expect((5 * Rb[0]) / (Ra[1] + Rb[1])).toBeLessThan(divider.published_min! - 0.04);
    expect((5 * Rb[1]) / (Ra[0] + Rb[0])).toBeGreaterThan(divider.published_max! + 0.06);
  });

  it.each(['worstcase-36V-1A', 'worstcase-36V-50mA'])('current of a supply, sensed by an ideal amplifier: %s', id => {
    // `vp` is a divider, `vs` what a shunt leaves of the supply, and the amplifier holds `vo = vp + vos - (vs - vp - vos) r5 / r4`.
    const { published_min, published_nominal, published_max, tolerance } = example(id);
    const of = (name: string): Ranged => {
      const value: number | [number, number] = parametersOf(id)[name]!;
      return typeof value === 'number' ? ends(value, value) : ends(...value);
    };
    const divided = (upper: string, lower: string, volts: Ranged) =>
      shown(
        [
          ['V1', 'a', '0', volts],
          ['R1', 'a', 'b', of(upper)],
          ['R2', 'b', '0', of(lower)],
        ],
        'b',
        '0',
      );
    const vp = divided('r2', 'r3', of('vbus'));
    const share = divided('r4', 'r5', ends(1, 1));
    const vs = shown(
      [
        ['V1', 'a', '0', of('vbus')],
        ['R1', 'a', 'b', of('r1')],
        ['I1', 'b', '0', of('iload')],
      ],
      'b',
      '0',
    );
    const out = (at: 'low' | 'nominal' | 'high', other: 'low' | 'nominal' | 'high', gainAt: typeof at) => {
      const gain = share[gainAt] / (1 - share[gainAt]);
      const positive = vp[at] + of('vos')[at];
      return positive - (vs[other] - positive) * gain;
    };
    const all = (['low', 'high'] as const).flatMap(a =>
      (['low', 'high'] as const).flatMap(b => (['low', 'high'] as const).map(c => out(a, b, c))),
    );
    expect(Math.abs(out('nominal', 'nominal', 'nominal') - published_nominal!)).toBeLessThanOrEqual(tolerance);
    expect(Math.abs(Math.min(...all) - published_min!)).toBeLessThanOrEqual(tolerance);
    expect(Math.abs(Math.max(...all) - published_max!)).toBeLessThanOrEqual(tolerance);
  });

  const factors = example('helfrick-ex1-13');
  it(`the tolerances of three factors add up: ${factors.citation}`, () => {
    // The current of `V1` through `R2`, and what it drops over `R1`.
    const { V1, R1, R2 } = parametersOf(factors.id);
    const { network: first } = netlist([
      ['V1', 'a', '0', ends(...V1!)],
      ['R2', 'a', '0', ends(...R2!)],
    ]);
    const amps = read(first, { measure: 'clamp', element: 'R2' }) as NumberReading;
    const { low, nominal, high } = shown(
      [
        ['I1', '0', 'a', amps],
        ['R1', 'a', '0', ends(...R1!)],
      ],
      'a',
      '0',
    );
    expect(Math.abs(nominal - factors.published_nominal!)).toBeLessThanOrEqual(factors.tolerance);
    expect(Math.abs(low - factors.published_min!)).toBeLessThanOrEqual(factors.tolerance);
    expect(Math.abs(high - factors.published_max!)).toBeLessThanOrEqual(factors.tolerance);
  });

  const statistics = example('worstcase-rss');
  it(`a root-sum-square lies inside the worst case: ${statistics.citation}`, () => {
    // `a` in amperes through `b` in ohms. A resistance is not negative, and the high end is at the high one of both: 21.
    const { a, b } = parametersOf(statistics.id);
    const { high } = shown(
      [
        ['I1', '0', 'a', ends(...a!)],
        ['R1', 'a', '0', ends(0.001, b![1])],
      ],
      'a',
      '0',
    );
    expect(high).toBeCloseTo(21, 9);
    const [spreadA, spreadB] = [(a![1] - a![0]) / 2, (b![1] - b![0]) / 2];
    const rootSumSquare = 1 * 2 + Math.hypot(2 * spreadA, 1 * spreadB);
    expect(Math.abs(rootSumSquare - statistics.published_max!)).toBeLessThanOrEqual(statistics.tolerance);
    expect(high).toBeGreaterThan(rootSumSquare);
  });

  it('a chain of three on a supply that is off to one side', () => {
    // The problem is from an earlier notebook of the `worstcase` package, the answers are our own arithmetic: 5 V +0.1/-0.05 over
    // 10 kΩ ± 5 %, 30 kΩ ± 1 % and 10 kΩ: 0.97441 V to 1.03659 V over the last one.
    const { low, nominal, high } = shown(
      [
        ['V1', 'a', '0', { low: 4.95, nominal: 5, high: 5.1 }],
        ['R1', 'a', 'b', ends(9500, 10_500)],
        ['R2', 'b', 'c', ends(29_700, 30_300)],
        ['R3', 'c', '0', 10_000],
      ],
      'c',
      '0',
    );
    expect([low, nominal, high]).toEqual([
      expect.closeTo(0.97441, 5),
      expect.closeTo(1, 9),
      expect.closeTo(1.03659, 5),
    ]);
  });
});
