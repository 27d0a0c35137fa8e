import { spawnSync } from 'node:child_process';
import * as fs from 'node:fs';
import * as path from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import packageFile from '../../package.json' with { type: 'json' };
import { rules } from '../../server/src/rules/index.ts';
import { brokenProcedure, faultwalk, folderWith, lampProcedure, lampSystem } from './support.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));
const program = path.join(root, packageFile.bin.faultwalk);

/** The built program, as the shell starts it. */
function start(folder: string, ...args: string[]) {
  expect(fs.existsSync(program), 'build first: npm run build').toBe(true);
  const { status, stdout, stderr } = spawnSync(process.execPath, [program, ...args], { cwd: folder, encoding: 'utf8' });
  return { status, out: stdout, err: stderr };
}

describe('the built program', () => {
  const clean = folderWith({ 'lamp.system.yaml': lampSystem, 'lamp.procedure.yaml': lampProcedure });
  const broken = folderWith({ 'lamp.system.yaml': lampSystem, 'lamp.procedure.yaml': brokenProcedure });

  it('says its version', () => {
    expect(start(clean, '--version')).toEqual({ status: 0, out: `${packageFile.version}\n`, err: '' });
  });

  it('ends with 0, 1 or 2', () => {
    expect(start(clean, 'check', '.')).toEqual({ status: 0, out: 'No findings in 2 files\n', err: '' });
    expect(start(broken, 'check', '.').status).toBe(1);
    expect(start(clean, 'check', 'nowhere').status).toBe(2);
  });

  it('writes no colours where no terminal is', () => {
    expect(start(broken, 'check', '.').out).not.toContain('\u001b');
  });

  it('gives a reading', () => {
    const at = ['--measure', 'resistance', '--red', 'E1.1', '--black', 'E1.2'];
    const { status, out } = start(clean, 'reading', 'lamp.system.yaml', ...at);
    expect({ status, first: out.split('\n')[0] }).toEqual({ status: 0, first: '9.5 Ω .. 10.7 Ω, nominal 10 Ω' });
  });

  it('takes it calmly when its reader goes away', () => {
    const command = `"${process.execPath}" "${program}" rules | head -n 1`;
    const { stdout, stderr } = spawnSync('sh', ['-c', command], { cwd: clean, encoding: 'utf8' });
    expect(stdout).toMatch(/^[a-z-]+ +(error|warning|information|hint) /);
    expect(stderr).toBe('');
  });
});

describe('the help of the program', () => {
  const folder = folderWith({});

  it.each([[[]], [['check']], [['reading']], [['walk']], [['rules']]])('%j', async command => {
    const { status, out, err } = await faultwalk(folder, [...command, '--help']);
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out).toMatch(/^Usage: faultwalk /);
    expect(out).toContain('--help');
  });

  it('is shown where no command is given', async () => {
    const { status, err } = await faultwalk(folder, []);
    expect(status).toBe(2);
    expect(err).toMatch(/^Usage: faultwalk /);
  });

  it('tells the command that was surely meant', async () => {
    const { status, err } = await faultwalk(folder, ['chek', '.']);
    expect({ status, err }).toEqual({ status: 2, err: 'Unknown command `chek`\nhelp: did you mean `check`?\n' });
  });

  it('lists every rule on a line of its own', async () => {
    const { out } = await faultwalk(folder, ['rules']);
    const lines = out.trimEnd().split('\n');
    expect(lines.map(line => line.split(' ')[0])).toEqual(rules.map(rule => rule.id));
  });
});
