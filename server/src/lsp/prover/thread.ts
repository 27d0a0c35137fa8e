import * as path from 'node:path';
import { Worker } from 'node:worker_threads';
import type { Bench } from './bench.ts';
import type { Job, Proved } from './work.ts';

/** Starts the thread with the first job. `script` is the built worker. */
export function threadBench(script = path.join(__dirname, 'prover.cjs')): Bench {
  const wanted = new SharedArrayBuffer(4);
  const flag = new Int32Array(wanted);
  const waiting = new Map<
    number,
    { resolve: (proved: Proved | undefined) => void; reject: (error: unknown) => void }
  >();
  let worker: Worker | undefined;

  const start = () => {
    const fresh = new Worker(script, { workerData: { wanted } });
    fresh.on('message', ({ id, proved, failed }: { id: number; proved?: Proved; failed?: string }) => {
      const one = waiting.get(id);
      waiting.delete(id);
      if (failed === undefined) one?.resolve(proved);
      else one?.reject(new Error(failed));
    });
    // A thread that has died is started anew by the next job; it then has no texts, which the caller is told by the failure.
    fresh.on('error', error => {
      worker = undefined;
      for (const { reject } of waiting.values()) reject(error);
      waiting.clear();
    });
    fresh.unref();
    return fresh;
  };

  return {
    do(job: Job) {
      worker ??= start();
      Atomics.store(flag, 0, job.id);
      const answer = new Promise<Proved | undefined>((resolve, reject) => waiting.set(job.id, { resolve, reject }));
      worker.postMessage(job);
      return answer;
    },
    cancel: () => Atomics.store(flag, 0, -1),
    dispose() {
      void worker?.terminate();
      worker = undefined;
    },
  };
}
