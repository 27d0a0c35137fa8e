import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exact, within } from '../../server/src/base/ranged.ts';
import { inBox, toleranceOf } from '../../server/src/circuit/box.ts';
import type { Element, Network } from '../../server/src/circuit/network.ts';
import { type NumberReading, read } from '../../server/src/circuit/reading.ts';

const volts = (network: Network, node: number): NumberReading => {
  const reading = read(network, { measure: 'voltage', red: node, black: 0, inputOhms: Number.POSITIVE_INFINITY });
  if (reading.state !== 'number') throw new Error(reading.state);
  return reading;
};

/** Potentiometers that feed one node through resistors, each track with one tolerance. */
function mixer(shares: readonly number[], loadOhms: number): Network {
  const elements: Element[] = [{ kind: 'voltage', id: 'G', plus: 1, minus: 0, volts: exact(5) }];
  shares.forEach((share, i) => {
    const [wiper, tied] = [3 + i, `B${i}`];
    const part = (id: string, a: number, b: number, of: number): Element => ({
      kind: 'resistance',
      id,
      a,
      b,
      ohms: within(1000 * of, 0.1),
      tied,
    });
    elements.push(part(`B${i} first`, 1, wiper, 1 - share), part(`B${i} second`, wiper, 0, share));
    elements.push({ kind: 'resistance', id: `R${i}`, a: wiper, b: 2, ohms: exact(500 * (i + 1)) });
  });
  elements.push({ kind: 'resistance', id: 'load', a: 2, b: 0, ohms: exact(loadOhms) });
  return { nodeCount: 3 + shares.length, elements, joins: [] };
}

const machine = (network: Network, places: ReadonlyMap<string, number>): Network => ({
  ...network,
  elements: inBox(network.elements, new Map([...places].map(([word, t]) => [word, [t, t] as const]))).map(one =>
    one.kind === 'resistance' && one.tied ? { ...one, tied: undefined } : one,
  ),
});

describe('resistances with one tolerance', () => {
  it('leave a divider its exact ratio, but for what cutting the tolerance leaves open', () => {
    const reading = volts(mixer([0.4], 1e12), 3);
    expect(reading.attained).toEqual({ low: expect.closeTo(2, 6), high: expect.closeTo(2, 6) });
    expect(reading.high - reading.low).toBeLessThan(0.02);
  });

  const seed = 20261125;
  it(`enclose every machine and reach only what a machine reaches (seed ${seed})`, () => {
    const share = fc.double({ min: 0.1, max: 0.9, noNaN: true });
    fc.assert(
      fc.property(
        fc.array(share, { minLength: 1, maxLength: 5 }),
        fc.double({ min: 50, max: 5000, noNaN: true }),
        fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 5, maxLength: 5 }),
        (shares, loadOhms, places) => {
          const network = mixer(shares, loadOhms);
          const reading = volts(network, 2);
          const one = machine(network, new Map(shares.map((_, i) => [`B${i}`, places[i]!])));
          const shown = volts(one, 2).nominal;
          expect(shown).toBeGreaterThanOrEqual(reading.low - 1e-12);
          expect(shown).toBeLessThanOrEqual(reading.high + 1e-12);
          for (const [end, named] of [
            [reading.attained.low, reading.lowAt],
            [reading.attained.high, reading.highAt],
          ] as const) {
            const values = new Map(named.map(({ id, value }) => [id, value]));
            const exactly = network.elements.map(each =>
              each.kind === 'resistance' && values.has(each.id)
                ? { ...each, ohms: exact(values.get(each.id)!), tied: undefined }
                : each,
            );
            expect(exactly.filter(each => toleranceOf(each) !== each.id)).toEqual([]);
            expect(volts({ ...network, elements: exactly }, 2).nominal).toBeCloseTo(end, 9);
          }
        },
      ),
      { seed, numRuns: 60 },
    );
  });
});
