import * as path from 'node:path';
import { Worker } from 'node:worker_threads';
import type { Bench } from './bench.ts';
import { heldSignal, signalCount, wantedSignal } from './signals.ts';
import type { Job, Kind, Results } from './work.ts';

/** All six examples together take less than a fifth of it. */
const mostMemoryMB = 1024;

/**
 * Starts the thread with the first job. `script` is the built worker. A thread that would need more memory than it may ends: what it was
 * asked fails, and the editor goes on.
 */
export function threadBench(script = path.join(__dirname, 'prover.cjs'), mostMB = mostMemoryMB): Bench {
  const signals = new Int32Array(new SharedArrayBuffer(4 * signalCount));
  const waiting = new Map<
    number,
    { resolve: (result: Results[Kind] | undefined) => void; reject: (error: unknown) => void }
  >();
  let worker: Worker | undefined;

  const start = () => {
    const fresh = new Worker(script, {
      workerData: { signals: signals.buffer },
      resourceLimits: { maxOldGenerationSizeMb: mostMB },
    });
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
      Atomics.store(signals, wantedSignal, job.id);
      const answer = new Promise<Results[Kind] | undefined>((resolve, reject) =>
        waiting.set(job.id, { resolve, reject }),
      );
      worker.postMessage(job);
      return answer as Promise<Results[K] | undefined>;
    },
    cancel: () => Atomics.store(signals, wantedSignal, -1),
    hold(isHeld) {
      Atomics.store(signals, heldSignal, Number(isHeld));
      Atomics.notify(signals, heldSignal);
    },
    dispose() {
      void worker?.terminate();
      worker = undefined;
    },
  };
}
