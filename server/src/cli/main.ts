import { Command } from 'commander';

/** The command line: one command per file, put together here. */
const program = new Command('faultwalk').description(
  'Check diagnostic test procedures against the circuits that they are written for.',
);

program.parse();
