import * as fs from 'node:fs';
import * as os from 'node:os';
import * as path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { URI } from 'vscode-uri';
import { sizeLimitBytes } from '../../server/src/disk/files.ts';
import { nodeFiles } from '../../server/src/disk/node-files.ts';

let base: string;
beforeAll(() => {
  base = fs.mkdtempSync(path.join(os.tmpdir(), 'faultwalk-'));
  fs.mkdirSync(path.join(base, 'in/deep/node_modules'), { recursive: true });
  fs.mkdirSync(path.join(base, 'out'));
  fs.writeFileSync(path.join(base, 'in/ä b.system.yaml'), 'format: 1\r\n');
  fs.writeFileSync(path.join(base, 'in/deep/c.procedure.yaml'), '');
  fs.writeFileSync(path.join(base, 'in/deep/other.yaml'), '');
  fs.writeFileSync(path.join(base, 'in/deep/node_modules/d.system.yaml'), '');
  fs.writeFileSync(path.join(base, 'out/secret.system.yaml'), 'x');
  fs.symlinkSync(path.join(base, 'out/secret.system.yaml'), path.join(base, 'in/link.system.yaml'));
  fs.symlinkSync(path.join(base, 'in'), path.join(base, 'in/deep/round'));
  fs.writeFileSync(path.join(base, 'in/huge.system.yaml'), '');
  fs.truncateSync(path.join(base, 'in/huge.system.yaml'), sizeLimitBytes + 1);
  fs.writeFileSync(path.join(base, 'in/picture.system.yaml'), new Uint8Array([137, 80, 78, 71, 0, 255, 254]));
});
afterAll(() => fs.rmSync(base, { recursive: true }));

const uri = (name: string) => URI.file(path.join(base, name)).toString();

describe('files on the disk', () => {
  const files = () => nodeFiles(() => [uri('in')]);

  it('are read as they are', async () => {
    expect(await files().read(uri('in/ä b.system.yaml'))).toEqual({ text: 'format: 1\r\n' });
  });

  it.each([
    ['in/none.system.yaml', 'absent'],
    ['in/deep', 'absent'],
    ['out/secret.system.yaml', 'outside'],
    ['in/link.system.yaml', 'outside'],
    ['in/huge.system.yaml', 'too large'],
  ])('%s is %s', async (name, none) => {
    expect(await files().read(uri(name))).toEqual({ none });
  });

  it('that are no text are told by their characters', async () => {
    expect((await files().read(uri('in/picture.system.yaml'))).text).toContain('\0');
  });

  it('are not read through other schemes', async () => {
    expect(await files().read('http://example.org/a.system.yaml')).toEqual({ none: 'absent' });
  });

  it('are listed without links, folders of tools and more than asked for', async () => {
    const found = await files().list(uri('in'), 10);
    const names = found.map(one => URI.parse(one).fsPath.slice(base.length + 4));
    expect(names).toEqual(['huge.system.yaml', 'picture.system.yaml', 'ä b.system.yaml', 'deep/c.procedure.yaml']);
    expect(await files().list(uri('in'), 2)).toHaveLength(2);
  });
});
