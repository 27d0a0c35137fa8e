import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { faultsOf } from '../../server/src/analysis/faults/derive.ts';
import { effectOf } from '../../server/src/analysis/faults/effect-of.ts';
import { lower } from '../../server/src/analysis/lower/network.ts';
import { wire } from '../../server/src/analysis/lower/wiring.ts';
import { systemOf } from '../analysis/support.ts';

const files = ['loader/loader-aux', 'workboat/bilge', 'generator/genset'].map(file =>
  readFileSync(new URL(`../../examples/${file}.system.yaml`, import.meta.url), 'utf8'),
);

/** Invented damage: what a file looks like while it is typed. */
describe('a file that is half typed', () => {
  const damaged = fc
    .tuple(fc.constantFrom(...files), fc.nat(), fc.nat({ max: 400 }), fc.constantFrom('', ' ', ':', '{', 'x', '- '))
    .map(([text, at, length, instead]) => {
      const start = at % text.length;
      return text.slice(0, start) + instead + text.slice(start + length);
    });

  it('has a list of faults all the same, each with an id of its own and an effect that can be had', () => {
    fc.assert(
      fc.property(damaged, text => {
        const { system } = systemOf(text);
        for (const variant of system.variants.slice(0, 1)) {
          const wiring = wire(system, variant);
          const { rest } = systemOf(text).circuit(variant);
          const lowered = lower(wiring, rest, () => true);
          const faults = faultsOf(system, variant);
          expect(new Set(faults.map(f => f.id)).size).toBe(faults.length);
          for (const fault of faults) {
            const { network } = effectOf(fault).change(lowered);
            expect(network.elements.every(e => e.kind !== 'resistance' || e.ohms.low >= 0)).toBe(true);
            expect(fault.likelihood).toBeGreaterThanOrEqual(0);
          }
        }
      }),
      { numRuns: 60 },
    );
  });
});

describe('effects of random faults', () => {
  it('of two owners can be had together in any order, and have equal keys when they are equal', () => {
    const { system } = systemOf(files[0]!);
    const [variant] = system.variants;
    const wiring = wire(system, variant!);
    const faults = faultsOf(system, variant!);
    const lowered = lower(wiring, systemOf(files[0]!).circuit(variant!).rest, () => true);
    fc.assert(
      fc.property(fc.nat({ max: faults.length - 1 }), fc.nat({ max: faults.length - 1 }), (i, j) => {
        const [a, b] = [effectOf(faults[i]!), effectOf(faults[j]!)];
        fc.pre(faults[i]!.owner !== faults[j]!.owner);
        const count = (net: typeof lowered) => net.network.elements.length + net.network.joins.length;
        expect(count(b.change(a.change(lowered)))).toBe(count(a.change(b.change(lowered))));
        const isSame = JSON.stringify(faults[i]!.changes) === JSON.stringify(faults[j]!.changes);
        expect(a.key === b.key).toBe(isSame);
      }),
      { numRuns: 2000 },
    );
  });
});
