import { afterEach, expect, it } from 'vitest';
import type { Place } from '../../server/src/protocol/messages.ts';
import {
  type PreviewState,
  previewRequest,
  standingAtRequest,
  standingPlaceRequest,
} from '../../server/src/protocol/preview.ts';
import { lampProcedure, lampSamples, lampSystem } from '../features/support.ts';
import { type Client, memory, start } from './client.ts';

const uri = 'file:///project/lamp-dark.procedure.yaml';
const textDocument = { uri };

let client: Client;
afterEach(() => client.stop());

async function opened(): Promise<void> {
  const files = new Map([
    ['file:///project/lamp.system.yaml', lampSystem],
    [uri, lampProcedure],
    ['file:///project/lamp-dark.samples.yaml', lampSamples],
  ]);
  client = await start({ files: memory(files) });
  client.open(uri, lampProcedure);
  await client.rest();
}

const state = (walk: object) => client.connection.sendRequest<PreviewState>(previewRequest, { textDocument, walk });

it('the preview is asked for with a walk, and follows the text as it stands in the editor', async () => {
  await opened();
  const answers = [{ at: 'look', text: 'all sound' }];
  const before = await state({ answers });
  expect([before.history.length, before.atHand.name, before.samples.length > 0]).toEqual([1, 'volts', true]);
  client.change(uri, 2, 'all sound: volts', 'all is sound: volts');
  const after = await state({ answers });
  expect([after.atHand.name, after.refused?.suggestion]).toEqual(['look', 'all is sound']);
});

it('a step is found in the text, and the step at a position', async () => {
  await opened();
  const place = await client.connection.sendRequest<Place>(standingPlaceRequest, { textDocument, name: 'volts' });
  const lines = lampProcedure.split('\n');
  expect([place.uri, lines[place.range.start.line]?.trim()]).toEqual([uri, 'volts:']);
  const position = { line: place.range.start.line + 2, character: 6 };
  expect(await client.connection.sendRequest(standingAtRequest, { textDocument, position })).toBe('volts');
  expect(await client.connection.sendRequest(standingPlaceRequest, { textDocument, name: 'gone' })).toBeNull();
});

it('there is no preview of a file that is no procedure', async () => {
  await opened();
  const other = { uri: 'file:///project/lamp.system.yaml' };
  const walk = { answers: [] };
  expect(await client.connection.sendRequest(previewRequest, { textDocument: other, walk })).toBeNull();
});
