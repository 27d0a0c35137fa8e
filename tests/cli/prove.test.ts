import { describe, expect, it } from 'vitest';
import { heaterProcedure, heaterSystem } from '../support/heater.ts';
import { faultwalk, folderWith } from './support.ts';

const folder = folderWith({
  'heater.system.yaml': heaterSystem,
  'good.procedure.yaml': heaterProcedure,
  'bad.procedure.yaml': heaterProcedure.replace('otherwise: repair', 'otherwise: fine'),
  'lost.procedure.yaml': heaterProcedure.replace('heater.system.yaml', 'cooler.system.yaml'),
});

describe('faultwalk prove', () => {
  it('ends with 0 where every fault ends at its repair, and says so by variant', async () => {
    const { status, out, err } = await faultwalk(folder, ['prove', 'good.procedure.yaml']);
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out).toMatch(/^good\.procedure\.yaml/);
    expect(out).toContain('standard');
  });

  it('ends with 1 where a fault ends at nothing wrong', async () => {
    const { status, out } = await faultwalk(folder, ['prove', 'bad.procedure.yaml', '--format', 'json']);
    expect(status).toBe(1);
    const [{ path, coverage }] = JSON.parse(out).procedures;
    expect([path, coverage[0].system, coverage[0].variant]).toEqual([
      'bad.procedure.yaml',
      'heater.system.yaml',
      'standard',
    ]);
    expect(coverage[0].figures.byResult['not found']).toBeGreaterThan(0);
  });

  it('walks pairs of faults as many as are asked for', async () => {
    const args = ['prove', 'good.procedure.yaml', '--pairs', '5', '--format', 'json'];
    const { out } = await faultwalk(folder, args);
    const [{ pairs }] = JSON.parse(out).procedures;
    expect(pairs).toHaveLength(1);
    expect(pairs[0].variant).toBe('standard');
    const text = (await faultwalk(folder, args.slice(0, 4))).out;
    expect(text).toMatch(/^standard: 5 of \d+, spread evenly, pairs of faults that stay; /m);
  });

  it('cannot be carried out for a number that is none, a file that is none, or a system that is not there', async () => {
    const failing = async (...args: string[]) => {
      const { status, out, err } = await faultwalk(folder, ['prove', ...args]);
      expect({ status, out }).toEqual({ status: 2, out: '' });
      return err;
    };
    expect(await failing('good.procedure.yaml', '--pairs', 'many')).toBe(
      '`--pairs many` is no number of pairs\nhelp: write a number, or `all`\n',
    );
    expect(await failing('heater.system.yaml')).toMatch(/^There is no procedure in `heater\.system\.yaml`\nhelp: /);
    expect(await failing('lost.procedure.yaml')).toMatch(/^`lost\.procedure\.yaml` applies to no system/);
  });
});
