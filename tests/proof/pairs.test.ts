import { describe, expect, it } from 'vitest';
import type { ProcedureView } from '../../server/src/analysis/view.ts';
import { provePairs } from '../../server/src/proof/pairs.ts';
import { possibleFaults } from '../../server/src/proof/prove.ts';
import { ruleById } from '../../server/src/rules/index.ts';
import { viewOf } from '../support/check.ts';

describe('two faults at once', () => {
  const good = viewOf(ruleById.get('fault-ends-at-wrong-part')!.good) as ProcedureView;
  const bad = viewOf(ruleById.get('fault-ends-at-wrong-part')!.bad) as ProcedureView;
  const many = possibleFaults(good.cases[0]!).length;

  it('are walked as all pairs where that is asked for', () => {
    const [pairs] = provePairs(good, { most: Infinity });
    expect(pairs!.possible).toBe((many * (many - 1)) / 2);
    expect(pairs!.tried).toBe(pairs!.possible);
    expect(Object.values(pairs!.byResult).reduce((sum, count) => sum + count, 0)).toBe(pairs!.shown);
  });

  it('are spread over all pairs where only some are asked for, and said to be some', () => {
    const [pairs] = provePairs(good, { most: 25 });
    expect(pairs!.tried).toBe(25);
    expect(pairs!.possible).toBeGreaterThan(25);
  });

  it('end badly where the repair names neither', () => {
    const [pairs] = provePairs(bad, { most: Infinity });
    const wrong = pairs!.bad.filter(({ result }) => result === 'wrong part');
    expect(wrong.length).toBe(pairs!.byResult['wrong part']);
    // Both terminals of the heater without contact: mended by their wires, and the repair names the heater.
    expect(wrong.map(({ faults }) => faults.join(' with '))).toContain('H1.1 open with H1.2 open');
  });

  it('stop where the question is taken back', () => {
    let asked = 0;
    const [pairs] = provePairs(good, { most: Infinity, cancelled: () => ++asked > 10 });
    expect(pairs!.tried).toBe(10);
  });
});
