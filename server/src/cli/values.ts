import { type Command, InvalidArgumentError, Option } from 'commander';
import type { StateOf } from '../analysis/values/table.ts';
import { valuesTable } from '../analysis/values/values.ts';
import type { SystemView } from '../analysis/view.ts';
import { coloured, plain } from '../publish/paint.ts';
import { valuesAsCsv } from '../publish/values-csv.ts';
import { valuesAsJson } from '../publish/values-json.ts';
import { valuesAsMarkdown } from '../publish/values-markdown.ts';
import { valuesAsText } from '../publish/values-text.ts';
import type { Finish, Host } from './host.ts';
import { situationOf } from './situation.ts';
import { systemAt, variantsOf } from './system-file.ts';

interface Options {
  readonly variant?: string;
  readonly set?: readonly string[];
  readonly most: number;
  readonly format: 'text' | 'markdown' | 'csv' | 'json';
}

/** `faultwalk values`: what a technician should see at every test point. */
export function addValues(program: Command, host: Host, finish: Finish): void {
  program
    .command('values')
    .summary('print the table of what a meter should show')
    .description(
      'Prints for every line of the wiring the voltage, and for every part without its plug the resistance, that a meter should ' +
        'show on a machine without a fault: the range over all tolerances, and again for each state that changes it. Voltages ' +
        'are measured with everything plugged together and with the states set that feed the machine; from there one state is ' +
        'changed at a time, and two for an output that no single one switches.',
    )
    .argument('<system>', 'a system file')
    .option('--variant <name>', 'this variant of the machine only')
    .option(
      '--set <name=state>',
      'where the voltages start from, instead of the states that feed the machine; may be given again',
      (value: string, before: readonly string[] = []) => [...before, value],
    )
    .option('--most <count>', 'read so many voltages at most in a variant', count, 8_000)
    .addOption(
      new Option('--format <form>', 'how the table is written')
        .choices(['text', 'markdown', 'csv', 'json'])
        .default('text'),
    )
    .action(async (file: string, options: Options) => {
      host.out(tablesAs(options, await systemAt(file, host, 'the table'), file, host));
      finish(0);
    });
}

function count(text: string): number {
  if (!/^[1-9]\d{0,8}$/.test(text)) throw new InvalidArgumentError('It is a count, such as 5000.');
  return Number(text);
}

function tablesAs(options: Options, view: SystemView, file: string, { colours }: Host): string {
  const { system } = view;
  const tables = variantsOf(view, options.variant, file).map(variant =>
    valuesTable(view, variant, { operating: startingAt(options, view, variant, file), mostReadings: options.most }),
  );
  const title = system.title ?? system.id?.text ?? file;
  switch (options.format) {
    case 'text':
      return valuesAsText(title, tables, colours ? coloured : plain);
    case 'markdown':
      return valuesAsMarkdown(title, tables);
    case 'csv':
      return valuesAsCsv(tables);
    case 'json':
      return valuesAsJson(tables);
  }
}

function startingAt({ set }: Options, view: SystemView, variant: string, file: string): StateOf[] | undefined {
  if (set === undefined) return undefined;
  const circuit = view.circuit(variant);
  const { states } = situationOf({ set }, view.system, circuit, `\`${file}\``);
  return [...states].flatMap(([name, state]) => (circuit.rest.states.get(name) === state ? [] : [{ name, state }]));
}
