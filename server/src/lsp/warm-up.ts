import { Workspace } from '../analysis/workspace.ts';
import { rules } from '../rules/index.ts';
import { checkText, checkWithoutProof } from '../rules/run.ts';
import { turn } from './guard.ts';
import { warmUpMachine } from './warm-up-machine.ts';

/**
 * Reads the examples of all rules and a small machine, a few milliseconds at a time, while nothing else is to be done: code that has run is several
 * times as fast, and the next file that somebody opens should not be the one that pays for it. Gives way as soon as there is work.
 */
export async function warmUp(isBusy: () => boolean): Promise<void> {
  for (let round = 0; round < rounds; round++) {
    for (const { on, bad } of rules) {
      await turn();
      if (isBusy()) return;
      const scratch = new Workspace();
      const uri = `warm-up:/example.${on === 'system' ? 'system' : 'procedure'}.yaml`;
      scratch.set(uri, bad);
      const view = scratch.view(uri);
      if (view) checkText(view);
    }
  }
  for (let round = 0; round < machines; round++) {
    await turn();
    if (isBusy()) return;
    const scratch = new Workspace();
    const files = warmUpMachine(round);
    for (const [uri, text] of files) scratch.set(uri, text);
    for (const uri of files.keys()) {
      const view = scratch.view(uri);
      if (view) checkWithoutProof(view);
    }
  }
}

/** One is not enough for most of the code to count as worth being made fast. */
const rounds = 3;
/** Machines that are solved; each takes a few milliseconds. */
const machines = 30;
