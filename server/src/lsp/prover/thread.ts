import * as path from 'node:path';
import { Worker } from 'node:worker_threads';
import type { Bench } from './bench.ts';
import type { Job, Kind, Results } from './work.ts';

/** Starts the thread with the first job. `script` is the built worker. */
export function threadBench(script = path.join(__dirname, 'prover.cjs')): Bench {
  const wanted = new SharedArrayBuffer(4);
  const flag = new Int32Array(wanted);
  const waiting = new Map<
    number,
    { resolve: (result: Results[Kind] | undefined) => void; reject: (error: unknown) => void }
  >();
  let worker: Worker | undefined;

  const start = () => {
    const fresh = new Worker(script, { workerData: { wanted } });
    fresh.on('message', ({ id, result, failed }: { id: number; result?: Results[Kind]; failed?: string }) => {
      const one = waiting.get(id);
      waiting.delete(id);
      if (failed === undefined) one?.resolve(result);
      else one?.reject(new Error(failed));
    });
    // A thread that has died is started anew by the next job; it then has no texts, which the caller is told by the failure.
    const end = (error: unknown) => {
      if (worker !== fresh) return;
      worker = undefined;
      for (const { reject } of waiting.values()) reject(error);
      waiting.clear();
    };
    fresh.on('error', end);
    fresh.on('exit', code => end(new Error(`The thread has ended with ${code}`)));
    fresh.unref();
    return fresh;
  };

  return {
    do<K extends Kind>(job: Job<K>) {
      worker ??= start();
      Atomics.store(flag, 0, job.id);
      const answer = new Promise<Results[Kind] | undefined>((resolve, reject) =>
        waiting.set(job.id, { resolve, reject }),
      );
      worker.postMessage(job);
      return answer as Promise<Results[K] | undefined>;
    },
    cancel: () => Atomics.store(flag, 0, -1),
    dispose() {
      void worker?.terminate();
      worker = undefined;
    },
  };
}
