import { type Command, Option } from 'commander';
import type { Case } from '../analysis/view.ts';
import { nextAt } from '../planning/next.ts';
import { prove } from '../proof/prove.ts';
import { nextAsJson, nextAsText } from '../publish/next.ts';
import { coloured, plain } from '../publish/paint.ts';
import { findFiles } from './find-files.ts';
import type { Finish, Host } from './host.ts';
import { openProject } from './project.ts';
import { unknown, WrongUse } from './wrong-use.ts';

interface Options {
  readonly at: string;
  readonly variant?: string;
  readonly format: 'text' | 'json';
}

/** `faultwalk next`: which test is best done at a step. */
export function addNext(program: Command, host: Host, finish: Finish): void {
  program
    .command('next')
    .summary('rank what could be tested at a step of a procedure')
    .description(
      'Takes the faults that may still be so at a step of a procedure, and ranks what can be looked at, read and measured there in the ' +
        'condition that the step sets, by what it tells per minute. Minutes count the access that the system file states; places at ' +
        'high voltage and at pyrotechnic parts are left out.',
    )
    .argument('<procedure>', 'a procedure file')
    .requiredOption('--at <step>', 'the step')
    .option('--variant <name>', 'this variant of the machine only')
    .addOption(new Option('--format <form>', 'how the list is written').choices(['text', 'json']).default('text'))
    .action(async (file: string, { at, variant, format }: Options) => {
      const project = await openProject(host.folder, await findFiles(host.folder, [file]));
      const view = project.view(project.named[0]!);
      if (view.kind !== 'procedure')
        throw new WrongUse(`\`${file}\` is no procedure`, 'name a file that ends in `.procedure.yaml`');
      if (!view.procedure.steps.has(at)) throw unknown('step', at, view.procedure.steps.keys(), `\`${file}\``);
      const cases = casesNamed(view.cases, variant);
      const proof = prove(view);
      const found = cases.flatMap(one => nextAt(view, one, at, proof) ?? []);
      host.out(format === 'json' ? nextAsJson(found) : nextAsText(found, host.colours ? coloured : plain));
      finish(0);
    });
}

function casesNamed(cases: readonly Case[], variant: string | undefined): readonly Case[] {
  if (variant === undefined) return cases;
  const found = cases.filter(one => one.variant === variant);
  const names = cases.map(one => one.variant);
  if (found.length === 0) throw unknown('variant', variant, names, 'this procedure');
  return found;
}
