import { afterEach, expect, it } from 'vitest';
import { CancellationTokenSource } from 'vscode-languageserver/node';
import type { Place } from '../../server/src/protocol/messages.ts';
import {
  type ValuesState,
  valuesCopyRequest,
  valuesPlaceRequest,
  valuesRequest,
} from '../../server/src/protocol/values.ts';
import { lampProcedure, lampSystem } from '../features/support.ts';
import { type Client, memory, start } from './client.ts';

const uri = 'file:///project/lamp.system.yaml';
const textDocument = { uri };

let client: Client;
afterEach(() => client.stop());

async function opened(text = lampSystem): Promise<void> {
  const files = new Map([
    [uri, text],
    ['file:///project/lamp-dark.procedure.yaml', lampProcedure],
  ]);
  client = await start({ files: memory(files) });
  client.open(uri, text);
  await client.rest();
}

const state = (variant?: string) =>
  client.connection.sendRequest<ValuesState>(valuesRequest, { textDocument, variant });

it('the table follows the text as it stands in the editor', async () => {
  await opened();
  const fuse = async () => {
    const { sections } = await state();
    return sections[1]?.rows.find(({ leads }) => leads === 'F1.1 to F1.2')?.readings.map(({ range }) => range);
  };
  expect(await fuse()).toEqual(['at most 0.3 Ω']);
  client.change(uri, 2, 'rating: 10 A, resistance: 10 mΩ', 'rating: 10 A, resistance: 3 Ω');
  expect(await fuse()).toEqual(['3 Ω .. 3.2 Ω']);
});

it('a variant that is gone gives way to the first one', async () => {
  await opened();
  const chosen = async (variant?: string) => (await state(variant)).variants.find(one => one.chosen)?.id;
  expect([await chosen(), await chosen('relayed'), await chosen('gone')]).toEqual(['plain', 'relayed', 'plain']);
});

it('the place of a point is the token of its part, plug, ground or splice', async () => {
  await opened();
  const place = async (point: string) => {
    const found = await client.connection.sendRequest<Place | null>(valuesPlaceRequest, { textDocument, point });
    return found && lampSystem.split('\n')[found.range.start.line]?.slice(found.range.start.character);
  };
  expect(await place('E1.1')).toMatch(/^E1:/);
  expect(await place('nowhere.1')).toBeNull();
});

it('a copy is the printed form of the variant at hand', async () => {
  await opened();
  const copy = (form: string) => client.connection.sendRequest<string>(valuesCopyRequest, { textDocument, form });
  expect(await copy('markdown')).toMatch(/^# .*\n\n## Voltages\n/);
  expect(await copy('csv')).toMatch(/^variant,measured,/);
});

it('there is no table of a file that is no system', async () => {
  await opened();
  const other = { uri: 'file:///project/lamp-dark.procedure.yaml' };
  expect(await client.connection.sendRequest(valuesRequest, { textDocument: other })).toBeNull();
});

/** So many states and lines that a table of them takes many pieces of work. */
const manySwitches = `format: 1
system: many
parts:
  G1: { kind: battery, voltage: 12 V ± 1 V, internal resistance: 10 mΩ }
${each(n => `  S${n}: { kind: switch, positions: [open, shut], closed: shut, contact resistance: 20 mΩ ± 10 % }`)}
${each(n => `  R${n}: { kind: resistor, resistance: ${n} Ω ± 5 % }`)}
grounds: { GND-1: Frame }
wires:
  - W0: G1.- to GND-1
${each(n => `  - A${n}: G1.+ to S${n}.1, 1 mm², 1 m\n  - B${n}: S${n}.2 to R${n}.1, 1 mm², 1 m\n  - C${n}: R${n}.2 to GND-1, 1 mm², 1 m`)}
`;

function each(write: (n: number) => string): string {
  return Array.from({ length: 300 }, (_, i) => write(i + 1)).join('\n');
}

it('a question that was taken back is given up, and other questions are answered meanwhile', async () => {
  await opened(manySwitches);
  const asked = new CancellationTokenSource();
  const order: string[] = [];
  const table = client.connection.sendRequest(valuesRequest, { textDocument }, asked.token).then(
    () => order.push('table'),
    () => order.push('given up'),
  );
  const place = client.connection
    .sendRequest(valuesPlaceRequest, { textDocument, point: 'GND-1' })
    .then(() => order.push('place'));
  asked.cancel();
  await Promise.all([table, place]);
  expect(order.sort()).toEqual(['given up', 'place']);
});
