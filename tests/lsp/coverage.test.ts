import { afterEach, expect, it } from 'vitest';
import {
  type CoverageAnswer,
  type CoverageLook,
  coverageRequest,
  coverageWalkRequest,
  type Proved,
  provedNotification,
} from '../../server/src/protocol/coverage.ts';
import type { PreviewWalk } from '../../server/src/protocol/preview.ts';
import { lampProcedure, lampSystem } from '../features/support.ts';
import { type Client, memory, start } from './client.ts';

const uri = 'file:///project/lamp-dark.procedure.yaml';
const system = 'file:///project/lamp.system.yaml';
const textDocument = { uri };

let client: Client;
let proved: string[];
afterEach(() => client.stop());

async function opened(): Promise<void> {
  client = await start({
    files: memory(
      new Map([
        [system, lampSystem],
        [uri, lampProcedure],
      ]),
    ),
  });
  proved = [];
  client.connection.onNotification(provedNotification, ({ uri: which }: Proved) => void proved.push(which));
  client.open(uri, lampProcedure);
  await client.rest();
  // Who asks has the faults walked, and is told when there is something to be seen.
  expect(await ask()).toEqual({});
  await walked(1);
}

/** Waits until every fault has been walked so many times. */
async function walked(times: number): Promise<void> {
  while (proved.length < times) await new Promise(resolve => setTimeout(resolve, 10));
}

const ask = (look: CoverageLook = {}, of = textDocument) =>
  client.connection.sendRequest<CoverageAnswer | null>(coverageRequest, { textDocument: of, look });

it('the coverage is there once every fault has been walked, which the editor is told', async () => {
  await opened();
  expect(proved).toEqual([uri]);
  const { state } = (await ask())!;
  expect([state?.title, state?.isEarlier, state?.variants.map(({ label }) => label)]).toEqual([
    'The lamp stays dark',
    false,
    ['Without the relay', 'With the relay'],
  ]);
  expect(state?.results.reduce((sum, { walks }) => sum + walks, 0)).toBeGreaterThan(0);
});

it('until faults are walked anew the earlier coverage stands, and says so', async () => {
  await opened();
  client.change(uri, 2, 'title: The lamp stays dark', 'title: The lamp does not light');
  const between = (await ask())!.state;
  expect([between?.title, between?.isEarlier]).toEqual(['The lamp does not light', true]);
  await walked(2);
  expect((await ask())!.state?.isEarlier).toBe(false);
});

it('a change of the system has faults walked anew, too', async () => {
  await opened();
  client.open(system, lampSystem);
  client.change(system, 2, 'rating: 10 A', 'rating: 15 A');
  expect((await ask())!.state?.isEarlier).toBe(true);
  await walked(2);
  expect((await ask())!.state?.isEarlier).toBe(false);
});

it('a walk is given as the preview takes it', async () => {
  await opened();
  const { variant } = (await ask())!.state!.look;
  const walk = await client.connection.sendRequest<PreviewWalk | null>(coverageWalkRequest, {
    textDocument,
    variant,
    walk: 0,
    end: 0,
  });
  expect([walk?.variant, walk?.start, walk?.answers[0]?.at]).toEqual([variant, 'lamp stays dark', 'look']);
  const none = { textDocument, variant, walk: 100_000, end: 0 };
  expect(await client.connection.sendRequest(coverageWalkRequest, none)).toBeNull();
});

it('there is no coverage of a file that is no procedure', async () => {
  await opened();
  expect(await ask({}, { uri: system })).toBeNull();
});
