import { parentPort, workerData } from 'node:worker_threads';
import { heldSignal, wantedSignal } from './signals.ts';
import { type Job, Work } from './work.ts';

/** The thread on which faults are walked and tests are planned, so that the server answers meanwhile. */
const signals = new Int32Array(workerData.signals as SharedArrayBuffer);
const work = new Work();

parentPort?.on('message', (job: Job) => {
  const cancelled = () => {
    // The server is at work for somebody who types, and has the machine for itself.
    Atomics.wait(signals, heldSignal, 1, longestHoldMs);
    return Atomics.load(signals, wantedSignal) !== job.id;
  };
  try {
    parentPort!.postMessage({ id: job.id, result: work.do(job, cancelled) });
  } catch (error) {
    parentPort!.postMessage({
      id: job.id,
      failed: error instanceof Error ? (error.stack ?? error.message) : `${error}`,
    });
  }
});

/** A server that never comes to rest does not hold it for ever. */
const longestHoldMs = 1_000;
