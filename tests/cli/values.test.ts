import * as fs from 'node:fs';
import { describe, expect, it } from 'vitest';
import { faultwalk, folderWith } from './support.ts';

const loader = fs.readFileSync(new URL('../../examples/loader/loader-aux.system.yaml', import.meta.url), 'utf8');
const folder = folderWith({
  'loader.system.yaml': loader,
  'broken.system.yaml': loader.replace('kind: fuse,', 'kind: fuze,'),
});
const values = (...args: string[]) => faultwalk(folder, ['values', ...args]);

describe('faultwalk values', () => {
  it('prints every variant below its title, or the one that was named', async () => {
    const { status, out, err } = await values('loader.system.yaml');
    const titles = out.split('\n').filter(line => line.startsWith('Auxiliary'));
    expect([status, err]).toEqual([0, '']);
    expect(titles).toEqual(['fuse-fed', 'relay-fed'].map(one => `Auxiliary flow control, compact loader: ${one}`));
    const one = await values('loader.system.yaml', '--variant', 'fuse-fed');
    expect(one.out).toMatch(/^Auxiliary flow control, compact loader: fuse-fed\n/);
    expect(one.out).not.toContain('K3.85');
  });

  it('starts from the states that are set', async () => {
    const { out } = await values('loader.system.yaml', '--set', 'key=run', '--set', 'S6=on', '--set', 'seat=occupied');
    expect(out).toContain('Set key: run, seat: occupied, S6: on, all else at rest');
    expect(out).toMatch(/^A1\.23 .* key: run, seat: occupied, S6: on +12\.\d+ V \.\. 12\.\d+ V/m);
  });

  it('gives the shape that is promised, with the reading that `reading` gives', async () => {
    const { out } = await values('loader.system.yaml', '--variant', 'relay-fed', '--format', 'json');
    const { version, tables } = JSON.parse(out);
    expect([version, tables.length]).toEqual([1, 1]);
    const [table] = tables;
    expect(Object.keys(table)).toEqual(['variant', 'black', 'operating', 'voltages', 'resistances', 'leftOut']);
    expect([table.variant, table.black, table.operating]).toEqual(['relay-fed', 'GND-1', { key: 'run' }]);
    const row = table.voltages.find(({ red }: { red: string }) => red === 'A1.14');
    const held = row.readings.find(({ states }: { states: object }) => JSON.stringify(states) === '{"S6":"on"}');
    const at = ['--measure', 'voltage', '--red', 'A1.14', '--black', 'GND-1', '--variant', 'relay-fed'];
    const asked = await faultwalk(folder, [
      ...['reading', 'loader.system.yaml', ...at],
      ...['--set', 'key=run', '--set', 'S6=on', '--format', 'json'],
    ]);
    expect(held.reading).toEqual(JSON.parse(asked.out));
  });

  it('writes Markdown and comma-separated values', async () => {
    expect((await values('loader.system.yaml', '--format', 'markdown')).out).toMatch(/^# Auxiliary/);
    const { out } = await values('loader.system.yaml', '--format', 'csv');
    const records = out.split('\r\n');
    expect(records[0]).toBe('variant,measured,red,black,title,same at,state,low,nominal,high,unit,reading');
    expect(records.filter(record => record.startsWith('relay-fed,resistance,S6.1,S6.2')).length).toBe(5);
  });

  it('says what a bound left out', async () => {
    const { out } = await values('loader.system.yaml', '--variant', 'fuse-fed', '--most', '40');
    expect(out).toMatch(/^Not looked at, as the system is large: .*S6: on/m);
  });

  it('says on the error stream that a table of a faulty file is doubtful', async () => {
    const { status, err } = await values('broken.system.yaml', '--variant', 'fuse-fed');
    expect([status, err]).toEqual([
      0,
      'There is an error in `broken.system.yaml`, so the table may be wrong; `faultwalk check` tells more\n',
    ]);
  });

  it.each([
    [['--variant', 'gone'], /variant `gone`/],
    [['--set', 'key=gone'], /`gone`/],
    [['--format', 'html'], /`html`/],
    [['--most', 'many'], /`many`/],
  ])('cannot be carried out with %j', async (args, message) => {
    const { status, out, err } = await values('loader.system.yaml', ...args);
    expect([status, out]).toEqual([2, '']);
    expect(err).toMatch(message);
  });
});
