import * as fs from 'node:fs';
import * as os from 'node:os';
import * as path from 'node:path';
import { afterAll } from 'vitest';
import type { Host } from '../../server/src/cli/host.ts';
import { run } from '../../server/src/cli/run.ts';

export interface Outcome {
  readonly status: number;
  readonly out: string;
  readonly err: string;
}

/** A folder with these files, taken away when the tests of the file are done. */
export function folderWith(files: Readonly<Record<string, string>>): string {
  const folder = fs.realpathSync(fs.mkdtempSync(path.join(os.tmpdir(), 'faultwalk-')));
  folders.push(folder);
  for (const [name, text] of Object.entries(files)) {
    fs.mkdirSync(path.dirname(path.join(folder, name)), { recursive: true });
    fs.writeFileSync(path.join(folder, name), text);
  }
  return folder;
}

const folders: string[] = [];
afterAll(() => {
  for (const folder of folders) fs.rmSync(folder, { recursive: true });
});

/** Carries out a command line in the folder, within this process. */
export async function faultwalk(folder: string, args: readonly string[], host: Partial<Host> = {}): Promise<Outcome> {
  let [out, err] = ['', ''];
  const status = await run(args, {
    folder,
    out: text => {
      out += text;
    },
    err: text => {
      err += text;
    },
    colours: false,
    ...host,
  });
  return { status, out, err };
}

/** A lamp and a procedure for it, in which nothing is wrong. */
export const lampSystem = `format: 1
system: lamp
conditions: { key: [off, run] }
parts:
  G1: { kind: battery, voltage: 12.6 V ± 0.4 V, internal resistance: 10 mΩ }
  S1: { kind: switch, closed: { key: run } }
  E1: { kind: resistor, resistance: 10 Ω ± 5 % }
wires:
  - W1: G1.+ to S1.1, 1.5 mm², 1 m
  - W2: S1.2 to E1.1, 1.5 mm², 1 m
  - W3: E1.2 to G1.-, 1.5 mm², 1 m
`;

export const lampProcedure = `format: 1
procedure: lamp-dark
applies to: { lamp.system.yaml: all }
starts from: [{ symptom: lamp stays dark }]
start: look
steps:
  look: { set: { key: run }, inspect: [E1], then: { damage found: ask-the-maker, all sound: not-found } }
endings:
  ask-the-maker: { refer: Ask the maker }
  not-found: { no fault: The lamp is bright }
`;

/** The same with a name that is written in another way where it is named. */
export const brokenProcedure = lampProcedure.replace('all sound: not-found', 'all sound: Not_Found');
