import { expect, test } from 'vitest';
import { fuseOhms } from '../../server/src/circuit/fuse-table.ts';

// Drop across a good fuse against the current through it, 5 % apart at most.
test.each([
  // Chart of mvwautotechniek.nl, regular blade fuse.
  [10, 1.0, 0.13],
  // Trade bulletin of June 2017, mini blade fuse.
  [15, 0.1, 0.022],
  [15, 1.0, 0.218],
])('a fuse of %d A drops %d mV at %d A', (ratingA, millivolts, amperes) => {
  const nominal = fuseOhms(ratingA)?.nominal ?? 0;
  expect(Math.abs((amperes * nominal * 1000) / millivolts - 1)).toBeLessThan(0.05);
});

// 4.8 mΩ in a data sheet and 4.5 mΩ measured, both for 15 A, quoted in a forum thread on the drop across fuses.
test.each([0.0048, 0.0045])('%d Ω of a fuse of 15 A lies in the range', ohms => {
  expect(fuseOhms(15)?.low).toBeLessThan(ohms);
  expect(fuseOhms(15)?.high).toBeGreaterThan(ohms);
});
