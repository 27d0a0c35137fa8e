import type { Command } from './command.ts';

/** Starts the checker anew, with empty caches. */
export const restart: Command = {
  id: 'faultwalk.restart',
  run: ({ checker }) => checker.restart(),
};
