import { type Job, type Kind, type Results, Work } from './work.ts';

/** Where jobs are done: a thread of its own, or in tests the same one. */
export interface Bench {
  /** Undefined where the job was taken back; rejects where it failed. */
  do<K extends Kind>(job: Job<K>): Promise<Results[K] | undefined>;
  /** The job that is being done is not wanted any more. */
  cancel(): void;
  /** What is being done waits for as long as the server itself has work. */
  hold(isHeld: boolean): void;
  dispose(): void;
}

/** Does jobs where the server runs, a turn later: for an editor that has no threads, and for tests. */
export function sameThread(): Bench {
  const work = new Work();
  let wanted = -1;
  return {
    async do<K extends Kind>(job: Job<K>) {
      wanted = job.id;
      await new Promise(resolve => setTimeout(resolve, 0));
      const cancelled = () => wanted !== job.id;
      return work.do(job as Job, cancelled) as Results[K] | undefined;
    },
    cancel() {
      wanted = -1;
    },
    hold() {},
    dispose() {},
  };
}
