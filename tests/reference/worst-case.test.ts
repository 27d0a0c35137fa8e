import { describe, expect, it } from 'vitest';
import type { Ranged } from '../../server/src/base/ranged.ts';
import { type NumberReading, read } from '../../server/src/circuit/reading.ts';
import { type Line, netlist } from '../support/circuits.ts';
import published from './worstcase.json' with { type: 'json' };

/**
 * Published tolerance analyses that are resistive networks. Left out, because nothing of the circuit computes them: the
 * amplifier of `worstcase-36V-*` and the product `helfrick-ex1-13` (formulas of an ideal amplifier), `worstcase-rss` (a
 * root-sum-square, which is no bound).
 */
const example = (id: string) => published.examples.find(candidate => candidate.id === id)!;
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
});
