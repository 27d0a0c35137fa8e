import { Command, CommanderError } from 'commander';
import { version } from '../../../package.json';
import { harmless } from '../publish/paint.ts';
import { addCheck } from './check.ts';
import { addDraft } from './draft.ts';
import { addFaults } from './faults.ts';
import type { Finish, Host } from './host.ts';
import { addNext } from './next.ts';
import { addProve } from './prove.ts';
import { addReading } from './reading.ts';
import { addRules } from './rules.ts';
import { addValues } from './values.ts';
import { addWalk } from './walk.ts';
import { WrongUse } from './wrong-use.ts';

/** Carries out one command line, without the name of the program, and gives its exit status. */
export async function run(args: readonly string[], host: Host): Promise<number> {
  let status = 0;
  const finish: Finish = ended => {
    status = ended;
  };
  const program = programOn(host);
  addCheck(program, host, finish);
  addReading(program, host, finish);
  addValues(program, host, finish);
  addFaults(program, host, finish);
  addWalk(program, host, finish);
  addProve(program, host, finish);
  addNext(program, host, finish);
  addDraft(program, host, finish);
  addRules(program, host);
  try {
    await program.parseAsync(args, { from: 'user' });
    return status;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? 0 : 2;
    if (!(error instanceof WrongUse)) throw error;
    host.err(`${harmless(error.message)}\n${error.help ? `help: ${harmless(error.help)}\n` : ''}`);
    return 2;
  }
}

function programOn(host: Host): Command {
  return new Command('faultwalk')
    .description('Check diagnostic test procedures against the circuits that they are written for.')
    .version(version, '--version', 'show the version')
    .helpOption('--help', 'show how the program is used')
    .helpCommand(false)
    .configureOutput({ writeOut: host.out, writeErr: host.err, outputError: (text, write) => write(inOurWords(text)) })
    .exitOverride();
}

/** The library's `error: unknown option '--x'` in the manner of all our messages. */
function inOurWords(text: string): string {
  const said = text.replace(/^error: /, '').replace(/'([^']*)'/g, '`$1`');
  const sentence = said.charAt(0).toUpperCase() + said.slice(1);
  return harmless(sentence.replace(/\n\(Did you mean (.+)\?\)/, '\nhelp: did you mean `$1`?').replace(/\.\n/, '\n'));
}
