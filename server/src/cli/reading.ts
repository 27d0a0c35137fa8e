import { type Command, Option } from 'commander';
import type { MeterReading } from '../analysis/electrical.ts';
import type { SystemView } from '../analysis/view.ts';
import { handheldMeter } from '../model/read-procedure.ts';
import type { System } from '../model/system.ts';
import { readingShape } from '../publish/reading-json.ts';
import { readingAsText } from '../publish/reading-text.ts';
import type { Finish, Host } from './host.ts';
import { insistOnContact, meterPlace, type PlaceOptions } from './leads.ts';
import { type SituationOptions, situationOf } from './situation.ts';
import { systemAt, variantsOf } from './system-file.ts';
import { WrongUse } from './wrong-use.ts';

interface Options extends PlaceOptions, SituationOptions {
  readonly variant?: string;
  readonly fault?: string;
  readonly format: 'text' | 'json';
}

/** `faultwalk reading`: what the meter should show on a machine without a fault. */
export function addReading(program: Command, host: Host, finish: Finish): void {
  program
    .command('reading')
    .summary('tell what a meter should show')
    .description(
      'Tells what a meter should show on a machine without a fault: the range over all tolerances, the nominal value, and which ' +
        'supply and part values give each end. Everything not set is at rest and together. Where no variant is named, variants ' +
        'that differ are told one by one. Inside a mated plug the lead goes in from behind.',
    )
    .argument('<system>', 'a system file')
    .addOption(
      new Option('--measure <quantity>', 'what the meter measures')
        .choices(['voltage', 'resistance', 'current'])
        .makeOptionMandatory(),
    )
    .option('--red <point>', 'where the red lead goes: `A1.14`, `X12/1 (S6 side)`, `GND-4`')
    .option('--black <point>', 'where the black lead goes')
    .option('--around <name>', 'the wire or part that a clamp is put around, instead of the two leads')
    .option('--variant <name>', 'the variant of the machine')
    .option('--set <name=state>', 'a condition or a part in another state than at rest; may be given again', listed)
    .option('--disconnect <name>', 'a connector, or a part whose plug is off; may be given again', listed)
    .option('--remove <name>', 'a part that is out of its socket; may be given again', listed)
    .addOption(new Option('--format <form>', 'how the reading is written').choices(['text', 'json']).default('text'))
    .addOption(new Option('--fault <id>', 'a fault of the machine; comes with a later release').hideHelp())
    .action(async (file: string, options: Options) => {
      host.out(await reading(file, options, host));
      finish(0);
    });
}

function listed(value: string, before: readonly string[] = []): readonly string[] {
  return [...before, value];
}

async function reading(file: string, options: Options, host: Host): Promise<string> {
  if (options.fault !== undefined) throw new WrongUse('Readings of a machine with a fault come with a later release');
  const view = await systemAt(file, host, 'the reading');
  const found = readings(view, options, file);
  return options.format === 'json' ? asJson(found, view.system) : asText(found, view.system);
}

/** By variant. */
type Found = ReadonlyMap<string, MeterReading>;

function readings(view: SystemView, options: Options, file: string): Found {
  const { system } = view;
  const where = `\`${file}\``;
  const chosen = variantsOf(view, options.variant, file);
  const at = meterPlace(
    options,
    system,
    system.variants.map(variant => view.circuit(variant)),
    where,
  );
  return new Map(
    chosen.map(variant => {
      const circuit = view.circuit(variant);
      const reading = circuit.read(at, handheldMeter, situationOf(options, system, circuit, where));
      insistOnContact(reading, at, options.variant);
      return [variant, reading];
    }),
  );
}

function asJson(found: Found, system: System): string {
  const shapes = [...found].map(([variant, reading]) => [variant, readingShape(reading, system)] as const);
  const whole = isOne(found, system) ? shapes[0]![1] : { kind: 'by variant', variants: Object.fromEntries(shapes) };
  return `${JSON.stringify(whole, undefined, 2)}\n`;
}

function asText(found: Found, system: System): string {
  const [first] = found.values();
  if (isOne(found, system)) return `${readingAsText(first!, system)}\n`;
  const blocks = [...found].map(([variant, reading]) => {
    const [range, ...rest] = readingAsText(reading, system).split('\n');
    return [`${variant}: ${range}`, ...rest.map(line => `  ${line}`)].join('\n');
  });
  return `${blocks.join('\n\n')}\n`;
}

/** Variants with the same range are one to a reader, though different wires may be behind its ends. */
function isOne(found: Found, system: System): boolean {
  return new Set([...found.values()].map(reading => JSON.stringify(readingShape(reading, system)))).size === 1;
}
