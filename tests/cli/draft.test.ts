import * as fs from 'node:fs';
import * as path from 'node:path';
import { describe, expect, it } from 'vitest';
import { heaterProcedure, heaterSystem } from '../support/heater.ts';
import { systemsByName } from '../support/systems.ts';
import { faultwalk, folderWith } from './support.ts';

const folder = folderWith({
  'heater.system.yaml': heaterSystem,
  'cold.procedure.yaml': heaterProcedure,
  'lamp.system.yaml': systemsByName.get('lamp-variants.system.yaml')!,
});
const cold = ['draft', 'heater.system.yaml', '--symptom', 'heater stays cold'];

describe('faultwalk draft', () => {
  it('writes a procedure that checks and proves clean', async () => {
    const { status, out, err } = await faultwalk(folder, [...cold, '--when', 'H1=off', '--set', 'key=run']);
    expect(status).toBe(0);
    expect(err).toMatch(
      /^\d+ faults show this complaint\. Its tests take [\d.]+ minutes on average; no order of these tests /,
    );
    expect(err).toContain('local codes and the instructions of the maker come first');
    fs.writeFileSync(path.join(folder, 'drafted.procedure.yaml'), out);
    const checked = await faultwalk(folder, ['check', 'drafted.procedure.yaml']);
    expect([checked.status, checked.out]).toEqual([0, 'No findings in 1 file\n']);
    expect((await faultwalk(folder, ['prove', 'drafted.procedure.yaml'])).status).toBe(0);
  });

  it('takes a file by any name, and the last of what is said twice', async () => {
    fs.writeFileSync(path.join(folder, '100% #1 ü.system.yaml'), heaterSystem);
    const twice = ['--when', 'H1=on', '--when', 'H1=off', '--set', 'key=off', '--set', 'key=run'];
    const { status, out } = await faultwalk(folder, ['draft', '100% #1 ü.system.yaml', '--symptom', 'cold', ...twice]);
    expect(status).toBe(0);
    fs.writeFileSync(path.join(folder, 'named.procedure.yaml'), out);
    const checked = await faultwalk(folder, ['check', 'named.procedure.yaml']);
    expect([checked.status, checked.out]).toEqual([0, 'No findings in 1 file\n']);
  });

  it('compares the minutes of another procedure with those of the draft', async () => {
    const args = [...cold, '--when', 'H1=off', '--set', 'key=run', '--against', 'cold.procedure.yaml'];
    const { status, err } = await faultwalk(folder, args);
    expect(status).toBe(0);
    expect(err).toMatch(/cold\.procedure\.yaml takes [\d.]+ minutes on average over \d+ faults/);
    expect(err).toContain('Most of it goes to:\n');
  });

  it.each([
    [
      'a good machine does the same',
      ['--when', 'H1=off'],
      'A good machine shows `H1` at off as well\nhelp: say with `--set`',
    ],
    ['nothing has the name', ['--when', 'H2=off', '--set', 'key=run'], 'did you mean `H1`?'],
    [
      'a state is missing',
      ['--when', 'H1', '--set', 'key=run'],
      '`--when H1` says no state\nhelp: write a name, `=` and a state: `--when key=run`',
    ],
    [
      'a state does not exist',
      ['--when', 'H1=off', '--set', 'key=rnu'],
      'There is no state `rnu` in `key`\nhelp: there are `off`, `run`',
    ],
    ['what is seen cannot be', ['--when', 'H1=purple', '--set', 'key=run'], 'There is no state `purple` in `H1`'],
    ['the symptom is empty', ['--symptom', ' ', '--when', 'H1=off'], 'The symptom is empty'],
    ['the variant does not exist', ['--when', 'H1=off', '--set', 'key=run', '--variant', 'long'], '`long`'],
    ['nothing is seen', [], '--when <name=state>'],
    [
      'no procedure is compared',
      ['--when', 'H1=off', '--set', 'key=run', '--against', 'lamp.system.yaml'],
      '`lamp.system.yaml` is no procedure\n',
    ],
  ])('cannot be carried out where %s', async (_, args, said) => {
    const { status, err } = await faultwalk(folder, [...cold, ...args]);
    expect(status).toBe(2);
    expect(err).toContain(said);
  });

  it('asks for the variant where there are several, and for a system', async () => {
    const rest = ['--symptom', 'dark', '--when', 'E1=off'];
    const several = await faultwalk(folder, ['draft', 'lamp.system.yaml', ...rest]);
    expect([several.status, several.err]).toEqual([
      2,
      '`lamp.system.yaml` has several variants\nhelp: choose one with `--variant`: plain, with-dimmer\n',
    ]);
    const other = await faultwalk(folder, ['draft', 'cold.procedure.yaml', ...rest]);
    expect([other.status, other.err]).toEqual([
      2,
      '`cold.procedure.yaml` is no system\nhelp: name a file that ends in `.system.yaml`\n',
    ]);
  });
});
