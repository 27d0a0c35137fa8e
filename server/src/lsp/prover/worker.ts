import { parentPort, workerData } from 'node:worker_threads';
import { type Job, Work } from './work.ts';

/** The thread on which faults are walked and tests are planned, so that the server answers meanwhile. `workerData.wanted` holds the id of the job that is still wanted. */
const wanted = new Int32Array(workerData.wanted as SharedArrayBuffer);
const work = new Work();

parentPort?.on('message', (job: Job) => {
  const cancelled = () => Atomics.load(wanted, 0) !== job.id;
  try {
    parentPort!.postMessage({ id: job.id, result: work.do(job, cancelled) });
  } catch (error) {
    parentPort!.postMessage({
      id: job.id,
      failed: error instanceof Error ? (error.stack ?? error.message) : `${error}`,
    });
  }
});
