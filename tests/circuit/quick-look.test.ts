import { expect, it } from 'vitest';
import { quickLook } from '../../server/src/circuit/quick-look.ts';
import { read, readCheaply } from '../../server/src/circuit/reading.ts';
import { randomFrom, randomNetwork } from '../support/random-network.ts';

it('a quick look gives the nominal value of the reading, and bounds that the reading never passes', () => {
  const draw = randomFrom(20_261_129);
  const shares: number[] = [];
  for (let round = 0; round < 600; round++) {
    const network = randomNetwork(draw, {
      nodes: 3 + Math.floor(draw() * 12),
      extra: Math.floor(draw() * 8),
      voltageSources: 1 + Math.floor(draw() * 2),
      currentSources: Math.floor(draw() * 2),
      uncertain: 2 + Math.floor(draw() * 8),
      tolerance: [0.01, 0.05, 0.2, 0.5][round % 4]!,
      decades: 4,
    });
    const look = quickLook(network);
    const [red, black] = [0, 1 + Math.floor(draw() * (network.nodeCount - 1))];
    const at = { measure: 'voltage', red, black, inputOhms: Number.POSITIVE_INFINITY } as const;
    const reading = read(network, at);
    if (!look || reading.state !== 'number') {
      expect(look?.between(red, black) === undefined || reading.state === 'unsolvable').toBe(true);
      continue;
    }
    const size = Math.max(1e-3, Math.abs(reading.low), Math.abs(reading.high));
    expect(Math.abs(look.between(red, black)! - reading.nominal)).toBeLessThan(1e-9 * size);
    const range = look.range(red, black)!;
    expect(range.low).toBeLessThanOrEqual(reading.low);
    expect(range.high).toBeGreaterThanOrEqual(reading.high);
    shares.push((reading.high - reading.low) / (range.high - range.low));
    expect(readCheaply(network, at) ?? reading).toEqual(reading);
  }
  expect(shares.length).toBeGreaterThan(400);
  const sorted = shares.sort((a, b) => a - b);
  console.log(
    `quick looks: ${shares.length}; half of them are less than ${(1 / sorted[shares.length >> 1]!).toFixed(1)} times as wide`,
  );
});

it('a quick look says nothing about what may be a connection', () => {
  const resistance = (id: string, a: number, b: number, low: number, nominal: number, high: number) =>
    ({ kind: 'resistance', id, a, b, ohms: { low, nominal, high } }) as const;
  const volts = { low: 12, nominal: 12, high: 12 };
  const withContact = (nominal: number) => ({
    nodeCount: 3,
    joins: [],
    elements: [
      { kind: 'voltage', id: 'V', plus: 1, minus: 0, volts } as const,
      resistance('contact', 1, 2, 0, nominal, 1),
      resistance('load', 2, 0, 9, 10, 11),
    ],
  });
  expect(quickLook(withContact(0.5))!.between(2, 0)).toBeCloseTo(120 / 10.5, 12);
  expect(quickLook(withContact(0.5))!.range(2, 0)).toBeUndefined();
  expect(quickLook(withContact(0))!.between(2, 0)).toBe(12);
  expect(quickLook(withContact(0))!.range(2, 0)).toBeUndefined();
});
