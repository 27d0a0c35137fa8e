import { describe, expect, it } from 'vitest';
import { faultwalk, folderWith, lampProcedure, lampSystem } from './support.ts';

const walks = (look: string, endsAt: string) =>
  `format: 1\nsamples of: lamp.procedure.yaml\nwalks:\n  seen at once: { readings: { look: ${look} }, ends at: ${endsAt} }\n`;
const lamp = { 'lamp.system.yaml': lampSystem, 'lamp.procedure.yaml': lampProcedure };
const folder = folderWith({
  ...lamp,
  'good.samples.yaml': walks('all sound', 'not-found'),
  'elsewhere/bad.samples.yaml': walks('damage found', 'not-found').replace('lamp.proc', '../lamp.proc'),
  'other.samples.yaml': walks('all sound', 'not-found').replace('lamp.proc', 'other.proc'),
});

describe('faultwalk walk', () => {
  it('walks the samples beside the procedure, and those of no other', async () => {
    const { status, out, err } = await faultwalk(folder, ['walk', 'lamp.procedure.yaml']);
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out).toMatch(/^good\.samples\.yaml\n/);
    expect(out).not.toContain('other.samples.yaml');
  });

  it('ends with 1 and the reason where a walk goes astray', async () => {
    const args = ['walk', 'lamp.procedure.yaml', '--samples', 'elsewhere/bad.samples.yaml'];
    const { status, out } = await faultwalk(folder, args);
    expect(status).toBe(1);
    expect(out).toContain('The walk ends at `ask-the-maker`, not at `not-found`');
    expect(out).not.toContain('good.samples.yaml');
  });

  it('writes a stable shape for other programs', async () => {
    const { out } = await faultwalk(folder, ['walk', 'lamp.procedure.yaml', '--format', 'json']);
    const walk = {
      walk: 'seen at once',
      variant: 'standard',
      reached: true,
      endsAt: 'not-found',
      at: 'not-found',
      steps: [{ step: 'look', reading: 'all sound', why: expect.any(String) }],
    };
    expect(JSON.parse(out)).toEqual({
      version: 1,
      files: [{ path: 'good.samples.yaml', procedure: 'lamp.procedure.yaml', walks: [walk] }],
      totals: { walks: 1, reached: 1, missed: 0 },
    });
  });

  it('is no success without a walk', async () => {
    const bare = folderWith(lamp);
    const { status, out, err } = await faultwalk(bare, ['walk', 'lamp.procedure.yaml']);
    expect({ status, out }).toEqual({ status: 2, out: '' });
    expect(err).toMatch(/^There is no sample walk for `lamp\.procedure\.yaml`\nhelp: /);
  });
});
