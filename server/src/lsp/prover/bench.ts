import { type Job, ProofWork, type Proved } from './work.ts';

/** Where jobs are done: a thread of its own, or in tests the same one. */
export interface Bench {
  /** Undefined where the job was taken back; rejects where it failed. */
  do(job: Job): Promise<Proved | undefined>;
  /** The job that is being done is not wanted any more. */
  cancel(): void;
  dispose(): void;
}

/** Does jobs where the server runs, a turn later: for an editor that has no threads, and for tests. */
export function sameThread(): Bench {
  const work = new ProofWork();
  let wanted = -1;
  return {
    async do(job) {
      wanted = job.id;
      await new Promise(resolve => setTimeout(resolve, 0));
      const cancelled = () => wanted !== job.id;
      return cancelled() ? undefined : work.do(job, cancelled);
    },
    cancel() {
      wanted = -1;
    },
    dispose() {},
  };
}
