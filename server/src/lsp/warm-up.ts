import type { FileView } from '../analysis/view.ts';
import { Workspace } from '../analysis/workspace.ts';
import { rules } from '../rules/index.ts';
import { checkAlone, checkWithoutProof } from '../rules/run.ts';
import { warmUpMachine } from './warm-up-machine.ts';

/**
 * Reads the examples of all rules and a small machine, a few milliseconds at a time, while nothing else is to be done: code that has run is several
 * times as fast, and the next file that somebody opens should not be the one that pays for it. Gives way as soon as there is work.
 */
export async function warmUp(isBusy: () => boolean): Promise<void> {
  for (const work of pieces()) {
    // Not a timer: a millisecond of waiting a piece would be half of the whole.
    await new Promise(setImmediate);
    if (isBusy()) return;
    work();
  }
}

/** What costs most comes first. */
function* pieces(): Generator<() => void> {
  for (let round = 0; round < machines; round++) {
    const scratch = new Workspace();
    for (const [uri, text] of warmUpMachine(round)) yield* opening(scratch, uri, text);
  }
  for (const { on, bad } of rules) {
    yield* opening(new Workspace(), `warm-up:/example.${on === 'system' ? 'system' : 'procedure'}.yaml`, bad);
  }
}

/** What is done with a file that is opened, in pieces that keep nobody waiting. */
function* opening(scratch: Workspace, uri: string, text: string): Generator<() => void> {
  yield () => scratch.set(uri, text);
  yield () => use(scratch, uri, checkAlone);
  for (const rule of rules) {
    if (rule.group === 'proof') continue;
    if (rule.on === 'procedure') yield () => use(scratch, uri, view => view.kind === rule.on && [...rule.check(view)]);
    if (rule.on === 'system') yield () => use(scratch, uri, view => view.kind === rule.on && [...rule.check(view)]);
  }
  yield () => use(scratch, uri, checkWithoutProof);
}

function use(scratch: Workspace, uri: string, work: (view: FileView) => unknown): void {
  const view = scratch.view(uri);
  if (view) work(view);
}

/** One is not enough for most of the code to count as worth being made fast. */
const machines = 40;
