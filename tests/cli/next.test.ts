import { describe, expect, it } from 'vitest';
import { heaterProcedure, heaterSystem } from '../support/heater.ts';
import { faultwalk, folderWith } from './support.ts';

const folder = folderWith({ 'heater.system.yaml': heaterSystem, 'cold.procedure.yaml': heaterProcedure });
const next = (...args: string[]) => faultwalk(folder, ['next', 'cold.procedure.yaml', ...args]);

describe('faultwalk next', () => {
  it('ranks what can be measured at a step, the most telling per minute first', async () => {
    const { status, out, err } = await next('--at', 'volts');
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out).toMatch(/^volts \(standard\): \d+ suspects at \d+ places, with key at run\n {2}test +takes +tells/);
    expect(out).toContain('Voltage at ');
  });

  it('writes a stable shape for other programs', async () => {
    const { out } = await next('--at', 'volts', '--format', 'json');
    const { version, steps } = JSON.parse(out);
    expect([version, steps.length]).toEqual([1, 1]);
    const [{ step, variant, set, apart, suspects, tests }] = steps;
    expect({ step, variant, set, apart }).toEqual({
      step: 'volts',
      variant: 'standard',
      set: { key: 'run' },
      apart: [],
    });
    expect(suspects[0]).toEqual({ fault: expect.any(String), owner: expect.any(String), weight: expect.any(Number) });
    expect(tests[0]).toEqual({
      what: expect.objectContaining({ do: expect.any(String) }),
      title: expect.any(String),
      minutes: expect.any(Number),
      bits: expect.any(Number),
      bitsPerMinute: expect.any(Number),
      total: { atLeast: expect.any(Number), atMost: expect.any(Number) },
      splits: expect.any(Array),
    });
    const told: number[] = tests.map(({ bitsPerMinute }: { bitsPerMinute: number }) => bitsPerMinute);
    expect(told).toEqual(told.toSorted((a, b) => b - a));
    for (const { splits } of tests) {
      const counted = splits.reduce((sum: number, one: { suspects: number }) => sum + one.suspects, 0);
      expect(counted).toBe(suspects.length);
    }
  });

  it('cannot be carried out for a step, a variant or a file that is not there', async () => {
    const failing = async (...args: string[]) => {
      const { status, out, err } = await faultwalk(folder, ['next', ...args]);
      expect({ status, out }).toEqual({ status: 2, out: '' });
      return err;
    };
    expect(await failing('cold.procedure.yaml', '--at', 'vlots')).toContain('help: there are `try-it`, `volts`\n');
    expect(await failing('cold.procedure.yaml', '--at', 'volts', '--variant', 'long')).toContain('`long`');
    expect(await failing('heater.system.yaml', '--at', 'volts')).toMatch(/^`heater\.system\.yaml` is no procedure\n/);
    expect(await failing('cold.procedure.yaml')).toContain('--at <step>');
  });
});
