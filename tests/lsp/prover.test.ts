/** Faults are walked in the background: what happens there when texts and settings change meanwhile, and when it fails. */
import * as fs from 'node:fs';
import * as os from 'node:os';
import * as path from 'node:path';
import { expect, it } from 'vitest';
import { type Bench, sameThread } from '../../server/src/lsp/prover/bench.ts';
import { Prover } from '../../server/src/lsp/prover/prover.ts';
import { threadBench } from '../../server/src/lsp/prover/thread.ts';
import type { Job, Proved } from '../../server/src/lsp/prover/work.ts';
import { lampProcedure, lampSystem } from '../features/support.ts';

const uri = 'file:///project/lamp-dark.procedure.yaml';
const files = [
  [uri, lampProcedure],
  ['file:///project/lamp.system.yaml', lampSystem],
] as const;
const job = (id: number, changes: Job['changes']): Job<'proof'> => ({
  kind: 'proof',
  id,
  uri,
  changes,
  task: { levels: new Map() },
});

it('a job that is taken back before it begins has its texts taken over all the same', async () => {
  const bench = sameThread();
  const taken = bench.do(job(1, files));
  bench.cancel();
  expect(await taken).toBeUndefined();
  const proved = await bench.do(job(2, []));
  expect(proved?.coverage.map(({ variant }) => variant)).toEqual(['plain', 'relayed']);
});

/** A prover of one procedure whose jobs are answered by the test. */
function proverOf(answer: () => Promise<Proved | undefined>) {
  const seen = { text: 'first', jobs: 0, reports: 0 };
  const bench = {
    do: () => {
      seen.jobs++;
      return answer();
    },
    cancel() {},
    dispose() {},
  } as unknown as Bench;
  const host = {
    files: () => [[uri, seen.text] as const],
    levels: async () => new Map(),
    begun() {},
    // As in the server: once it has been published, the procedure is looked at again.
    ended: () => void setTimeout(() => prover.want(uri), 0),
    report: () => void seen.reports++,
  };
  const prover: Prover = new Prover(host, bench);
  const rest = () => new Promise(resolve => setTimeout(resolve, 30));
  return { prover, seen, rest };
}

it('what fails is not tried again until a text changes', async () => {
  const { prover, seen, rest } = proverOf(() => Promise.reject(new Error('broken')));
  prover.want(uri);
  await rest();
  expect([seen.jobs, seen.reports, prover.failureOf(uri)]).toEqual([1, 1, 'mistake']);
  seen.text = 'second';
  expect(prover.failureOf(uri)).toBeUndefined();
  prover.want(uri);
  await rest();
  expect(seen.jobs).toBe(2);
});

it('other settings have it proved anew, even while it is being proved', async () => {
  const proved: Proved = { diagnostics: [], coverage: [] };
  const { prover, seen, rest } = proverOf(async () => proved);
  prover.want(uri);
  await rest();
  prover.want(uri);
  await rest();
  expect(seen.jobs).toBe(1);
  prover.age();
  expect(prover.proofOf(uri)).toEqual({ proved, isFresh: false });
  prover.want(uri);
  prover.age();
  await rest();
  expect(seen.jobs).toBe(3);
  expect(prover.proofOf(uri)?.isFresh).toBe(true);
});

it('a thread that needs more memory than it may ends, and who asks is told', async () => {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'thread-'));
  const script = path.join(folder, 'grows.cjs');
  const grow = 'const all = []; for (;;) all.push(new Array(1000).fill({}));';
  fs.writeFileSync(script, `require('node:worker_threads').parentPort.on('message', () => { ${grow} });`);
  const bench = threadBench(script, 16);
  const { prover, seen, rest } = proverOf(() => bench.do(job(1, [])));
  prover.want(uri);
  while (seen.reports === 0) await rest();
  expect(prover.failureOf(uri)).toBe('memory');
  bench.dispose();
  fs.rmSync(folder, { recursive: true });
});

it('a thread that ends by itself fails its job, and the next job has a new one', async () => {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'thread-'));
  const script = path.join(folder, 'ends.cjs');
  fs.writeFileSync(script, "require('node:worker_threads').parentPort.on('message', () => process.exit(3));");
  const bench = threadBench(script);
  await expect(bench.do(job(1, []))).rejects.toThrow('The thread has ended with 3');
  await expect(bench.do(job(2, []))).rejects.toThrow('The thread has ended with 3');
  bench.dispose();
  fs.rmSync(folder, { recursive: true });
});
