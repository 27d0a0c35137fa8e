import * as fs from 'node:fs';
import * as path from 'node:path';
import { describe, expect, it } from 'vitest';
import { brokenProcedure, faultwalk, folderWith, lampProcedure, lampSystem } from './support.ts';

const read = (folder: string, name: string) => fs.readFileSync(path.join(folder, name), 'utf8');

describe('faultwalk check --fix', () => {
  it.each([
    ['line feeds', (text: string) => text],
    ['carriage returns', (text: string) => text.replaceAll('\n', '\r\n')],
    ['a byte order mark', (text: string) => `\ufeff${text}`],
  ])('makes what is certainly meant, with %s', async (_, way) => {
    const folder = folderWith({ 'lamp.system.yaml': way(lampSystem), 'lamp.procedure.yaml': way(brokenProcedure) });
    const { status, out } = await faultwalk(folder, ['check', '.', '--fix']);
    expect(read(folder, 'lamp.procedure.yaml')).toBe(way(lampProcedure));
    expect({ status, out }).toEqual({ status: 0, out: 'No findings in 2 files\n' });
  });

  it('goes on until nothing is left, and reports what it cannot mend', async () => {
    const twice = brokenProcedure
      .replace('inspect:', 'Inspect:')
      .replace('endings:\n', 'endings:\n  spare: { refer: Nobody }\n');
    const folder = folderWith({ 'lamp.system.yaml': lampSystem, 'lamp.procedure.yaml': twice });
    const { out } = await faultwalk(folder, ['check', '.', '--fix']);
    const mended = read(folder, 'lamp.procedure.yaml');
    expect(mended).toContain('inspect: [E1]');
    expect(mended).toContain('all sound: not-found');
    expect(out).toContain(' unreachable-ending\n');
    expect(out).not.toContain('--fix');
  });

  it('touches no file in which nothing is to be mended, and none that is not named', async () => {
    const folder = folderWith({ 'lamp.system.yaml': lampSystem, 'lamp.procedure.yaml': brokenProcedure });
    const before = fs.statSync(path.join(folder, 'lamp.procedure.yaml')).mtimeMs;
    await faultwalk(folder, ['check', 'lamp.system.yaml', '--fix']);
    expect(fs.statSync(path.join(folder, 'lamp.procedure.yaml')).mtimeMs).toBe(before);
  });

  it('keeps the rights of a file, leaves nothing beside it and follows a link', async () => {
    const folder = folderWith({ 'lamp.system.yaml': lampSystem, 'kept/lamp.procedure.yaml': brokenProcedure });
    const kept = path.join(folder, 'kept/lamp.procedure.yaml');
    fs.chmodSync(kept, 0o640);
    fs.symlinkSync(kept, path.join(folder, 'lamp.procedure.yaml'));
    await faultwalk(folder, ['check', 'lamp.procedure.yaml', '--fix']);
    expect(fs.readFileSync(kept, 'utf8')).toBe(lampProcedure);
    expect(fs.statSync(kept).mode & 0o777).toBe(0o640);
    expect(fs.lstatSync(path.join(folder, 'lamp.procedure.yaml')).isSymbolicLink()).toBe(true);
    expect(fs.readdirSync(path.join(folder, 'kept'))).toEqual(['lamp.procedure.yaml']);
  });

  it('leaves a file alone that is not UTF-8', async () => {
    const folder = folderWith({ 'lamp.system.yaml': lampSystem });
    const latin = Buffer.concat([Buffer.from('# Pr'), Buffer.from([0xfc]), Buffer.from(`fung\n${brokenProcedure}`)]);
    fs.writeFileSync(path.join(folder, 'lamp.procedure.yaml'), latin);
    const { status } = await faultwalk(folder, ['check', '.', '--fix']);
    expect(status).toBe(1);
    expect(fs.readFileSync(path.join(folder, 'lamp.procedure.yaml')).equals(latin)).toBe(true);
  });
});
