import * as fs from 'node:fs';
import * as path from 'node:path';
import { describe, expect, it } from 'vitest';
import { brokenProcedure, faultwalk, folderWith, lampProcedure, lampSystem } from './support.ts';

const clean = folderWith({ 'lamp.system.yaml': lampSystem, 'lamp.procedure.yaml': lampProcedure });
const broken = folderWith({
  'a/lamp.system.yaml': lampSystem,
  'a/lamp.procedure.yaml': brokenProcedure,
  'a/node_modules/x/y.procedure.yaml': 'oops: [',
  'a/dist/z.procedure.yaml': 'oops: [',
  'a/.git/z.procedure.yaml': 'oops: [',
  'b/notes.yaml': 'anything: at all',
});

describe('faultwalk check', () => {
  it('says that nothing is wrong', async () => {
    expect(await faultwalk(clean, ['check', '.'])).toEqual({ status: 0, out: 'No findings in 2 files\n', err: '' });
  });

  it('shows each finding in a block of its own, and a line of totals', async () => {
    const { status, out, err } = await faultwalk(broken, ['check', 'a']);
    expect(err).toBe('');
    expect(status).toBe(1);
    const [first, ...others] = out.trimEnd().split('\n\n');
    expect(first).toBe(
      [
        'a/lamp.procedure.yaml:7:93 error unknown-name',
        '  No step or ending is called `Not_Found`',
        '  `look` leads to it with `all sound`.',
        '  help: Write `not-found`, or add a step or an ending of this name.',
        '    7 |   look: { set: { key: run }, inspect: [E1], then: { damage found: ask-the-maker, all sound: Not_Found } }',
        '      |                                                                                             ^^^^^^^^^',
      ].join('\n'),
    );
    expect(others).toEqual(['1 finding in 1 of 2 files: 1 error\n1 of them can be mended by --fix']);
  });

  it('reads what the named files refer to, and reports the named ones only', async () => {
    const { out } = await faultwalk(broken, ['check', 'a/lamp.system.yaml', '--format', 'json']);
    expect(JSON.parse(out)).toMatchObject({ files: ['a/lamp.system.yaml'], findings: [] });
    const alone = await faultwalk(clean, ['check', 'lamp.procedure.yaml']);
    expect(alone.out).toBe('No findings in 1 file\n');
  });

  it('names a file once that is given twice', async () => {
    const { out } = await faultwalk(clean, ['check', '.', 'lamp.procedure.yaml', './lamp.procedure.yaml']);
    expect(out).toBe('No findings in 2 files\n');
  });

  it.each([
    ['error', 0],
    ['warning', 0],
    ['information', 0],
    ['hint', 1],
  ])('with --fail-on %s and nothing but a hint ends with %i', async (severity, status) => {
    const withHint = lampSystem.replace('wires:', '  E9: { kind: item, fails: { bent: Rubs } }\nwires:');
    const folder = folderWith({ 'lamp.system.yaml': withHint, 'lamp.procedure.yaml': lampProcedure });
    const found = await faultwalk(folder, ['check', '.', '--fail-on', severity]);
    expect(found.out).toContain(' hint unused-part\n');
    expect(found.status).toBe(status);
  });

  it('writes a stable shape for other programs', async () => {
    const { status, out } = await faultwalk(broken, ['check', 'a', '--format', 'json']);
    expect(status).toBe(1);
    const report = JSON.parse(out);
    expect(Object.keys(report)).toEqual(['version', 'files', 'findings', 'totals']);
    expect(report.version).toBe(1);
    expect(report.files).toEqual(['a/lamp.procedure.yaml', 'a/lamp.system.yaml']);
    const range = { start: { line: 6, character: 92 }, end: { line: 6, character: 101 } };
    expect(report.findings[0]).toEqual({
      path: 'a/lamp.procedure.yaml',
      rule: 'unknown-name',
      severity: 'error',
      message: 'No step or ending is called `Not_Found`',
      detail: '`look` leads to it with `all sound`.',
      help: 'Write `not-found`, or add a step or an ending of this name.',
      range,
      related: [],
      fixes: expect.any(Array),
    });
    const edits = [{ path: 'a/lamp.procedure.yaml', range, text: 'not-found' }];
    expect(report.findings[0].fixes[0]).toEqual({ title: 'Write `not-found`', preferred: true, edits });
    const none = { warning: 0, information: 0, hint: 0 };
    expect(report.totals).toEqual({ files: 2, filesWithFindings: 1, findings: 1, error: 1, ...none });
  });

  it('tells where the time goes, beside the findings', async () => {
    const { out, err } = await faultwalk(clean, ['check', '.', '--stats']);
    expect(out).toBe('No findings in 2 files\n');
    const stages = err.trimEnd().split('\n');
    expect(stages.map(line => line.split(/\s+/)[0])).toEqual([
      'find',
      'read',
      'check',
      'write',
      'altogether',
      'memory',
    ]);
    for (const line of stages) expect(line).toMatch(/^[a-z]+ +\d+\.\d (ms|MB)$/);
  });

  it('colours for a terminal only', async () => {
    const { out } = await faultwalk(broken, ['check', 'a'], { colours: true });
    expect(out).toContain('\u001b[31merror\u001b[0m unknown-name');
    expect((await faultwalk(broken, ['check', 'a'])).out).not.toContain('\u001b');
  });

  it('looks into a folder that is named, whatever it is called', async () => {
    const { out } = await faultwalk(broken, ['check', 'a/node_modules']);
    expect(out).toContain('a/node_modules/x/y.procedure.yaml:1:');
  });

  it('gives files outside the folder by the way that leads there', async () => {
    const { out } = await faultwalk(path.join(broken, 'b'), ['check', '../a']);
    expect(out).toMatch(/^\.\.\/a\/lamp\.procedure\.yaml:7:/);
  });
});

describe('faultwalk check, in wrong use,', () => {
  fs.writeFileSync(path.join(broken, 'b/huge.system.yaml'), '');
  fs.truncateSync(path.join(broken, 'b/huge.system.yaml'), 60_000_000);
  const naming = 'help: files end in `.system.yaml`, `.procedure.yaml` or `.samples.yaml`\n';

  it.each([
    [['nowhere'], 'There is no file or folder `nowhere`\n'],
    [
      ['a/lamp.prosedure.yaml'],
      'There is no file or folder `a/lamp.prosedure.yaml`\nhelp: did you mean `a/lamp.procedure.yaml`?\n',
    ],
    [['b/notes.yaml'], `\`b/notes.yaml\` is no system, procedure or samples file by its name\n${naming}`],
    [['b/huge.system.yaml'], '`b/huge.system.yaml` is too large to be read\nhelp: split it into several files\n'],
    [['a', '--fromat', 'json'], 'Unknown option `--fromat`\nhelp: did you mean `--format`?\n'],
    [
      ['a', '--format', 'xml'],
      /^Option `--format <form>` argument `xml` is invalid. Allowed choices are text, json, sarif/,
    ],
    [[], 'Missing required argument `paths`\n'],
  ])('%j, says what to do', async (args, told) => {
    const { status, out, err } = await faultwalk(broken, ['check', ...args]);
    expect({ status, out }).toEqual({ status: 2, out: '' });
    if (typeof told === 'string') expect(err).toBe(told);
    else expect(err).toMatch(told);
  });

  it('a folder without any file of ours, is no success', async () => {
    const folder = folderWith({ 'sub/readme.txt': '' });
    const { status, err } = await faultwalk(folder, ['check', 'sub']);
    expect({ status, err }).toEqual({ status: 2, err: `\`sub\` holds no file to check\n${naming}` });
  });
});
