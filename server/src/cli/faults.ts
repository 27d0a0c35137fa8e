import { type Command, Option } from 'commander';
import { faultsOf } from '../analysis/faults/derive.ts';
import { listed } from '../publish/faults.ts';
import { faultsAsJson } from '../publish/faults-json.ts';
import { faultsAsText } from '../publish/faults-text.ts';
import { coloured, plain } from '../publish/paint.ts';
import type { Finish, Host } from './host.ts';
import { systemAt, variantsOf } from './system-file.ts';

interface Options {
  readonly variant?: string;
  readonly format: 'text' | 'json';
}

/** `faultwalk faults`: what can be wrong with a machine. */
export function addFaults(program: Command, host: Host, finish: Finish): void {
  program
    .command('faults')
    .summary('list what can be wrong with a machine')
    .description(
      'Lists every fault that follows from the parts, wires, connectors and grounds of a system, with what the section `faults` of ' +
        'the file changes: what mends it, how likely it is against 1 for an ordinary fault and where that is from, and how far a ' +
        'soft fault goes.',
    )
    .argument('<system>', 'a system file')
    .option('--variant <name>', 'this variant of the machine only')
    .addOption(new Option('--format <form>', 'how the list is written').choices(['text', 'json']).default('text'))
    .action(async (file: string, { variant, format }: Options) => {
      const view = await systemAt(file, host, 'the list');
      const { system } = view;
      const variants = variantsOf(view, variant, file);
      const faults = listed(new Map(variants.map(one => [one, faultsOf(system, one)])));
      const title = system.title ?? system.id?.text ?? file;
      const asText = () => faultsAsText(title, faults, variants, host.colours ? coloured : plain);
      host.out(format === 'json' ? faultsAsJson(faults) : asText());
      finish(0);
    });
}
