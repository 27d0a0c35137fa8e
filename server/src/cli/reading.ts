import { type Command, Option } from 'commander';
import type { MeterReading, ParallelPath } from '../analysis/electrical.ts';
import { effectOf } from '../analysis/faults/effect-of.ts';
import type { Fault } from '../analysis/faults/fault.ts';
import type { SystemView } from '../analysis/view.ts';
import { parallelInWords } from '../analysis/words/parallel.ts';
import { handheldMeter } from '../model/meter.ts';
import { harmless } from '../publish/paint.ts';
import { parallelShape, type ReadingShape, readingShape } from '../publish/reading-json.ts';
import { faultInWords, readingAsText } from '../publish/reading-text.ts';
import { faultIn } from './fault.ts';
import type { Finish, Host } from './host.ts';
import { insistOnContact, meterPlace, type PlaceOptions } from './leads.ts';
import { type SituationOptions, situationOf } from './situation.ts';
import { systemAt, variantsOf } from './system-file.ts';

interface Options extends PlaceOptions, SituationOptions {
  readonly variant?: string;
  readonly fault?: string;
  readonly format: 'text' | 'json';
}

/** `faultwalk reading`: what the meter should show on a machine, without a fault or with one. */
export function addReading(program: Command, host: Host, finish: Finish): void {
  program
    .command('reading')
    .summary('tell what a meter should show')
    .description(
      'Tells what a meter should show on a machine without a fault, or with the one that is named: the range over all tolerances, the nominal value, and which ' +
        'supply and part values give each end. Everything not set is at rest and together. Where no variant is named, variants ' +
        'that differ are told one by one. Inside a mated plug the lead goes in from behind.',
    )
    .argument('<system>', 'a system file')
    .addOption(
      new Option('--measure <quantity>', 'what the meter measures')
        .choices(['voltage', 'resistance', 'continuity', 'current', 'test lamp'])
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
    .option('--fault <id>', 'the machine has this fault, as `faultwalk faults` names it: `W41 open`, `F7 blown`')
    .action(async (file: string, options: Options) => {
      host.out(await reading(file, options, host));
      finish(0);
    });
}

function listed(value: string, before: readonly string[] = []): readonly string[] {
  return [...before, value];
}

async function reading(file: string, options: Options, host: Host): Promise<string> {
  const view = await systemAt(file, host, 'the reading');
  const found = readings(view, options, file);
  return options.format === 'json' ? asJson(found) : asText(found, variantsOf(view, options.variant, file).length);
}

/** What was read on a machine, and what was wrong with it. */
interface Read {
  readonly reading: MeterReading;
  readonly also?: ParallelPath;
  readonly fault?: Fault;
  /** Fuses that the fault has opened. */
  readonly blown: readonly string[];
}

/** By variant. */
type Found = ReadonlyMap<string, Read>;

function readings(view: SystemView, options: Options, file: string): Found {
  const { system } = view;
  const where = `\`${file}\``;
  const chosen = variantsOf(view, options.variant, file);
  const faults = options.fault === undefined ? undefined : faultIn(options.fault, system, chosen, where);
  const at = meterPlace(
    options,
    system,
    system.variants.map(variant => view.circuit(variant)),
    where,
  );
  return new Map(
    [...(faults?.keys() ?? chosen)].map(variant => {
      const circuit = view.circuit(variant);
      const now = situationOf(options, system, circuit, where);
      const fault = faults?.get(variant);
      const effect = fault && effectOf(fault);
      const reading = circuit.read(at, handheldMeter, now, effect);
      insistOnContact(reading, at, options.variant);
      return [
        variant,
        {
          reading,
          also: reading.state === 'number' ? circuit.parallel(at, now, effect) : undefined,
          fault,
          blown: effect ? circuit.blown(now, effect) : [],
        },
      ];
    }),
  );
}

function asJson(found: Found): string {
  const shapes = [...found].map(([variant, read]) => [variant, shapeOf(read)] as const);
  const whole = isOne(found) ? shapes[0]![1] : { kind: 'by variant', variants: Object.fromEntries(shapes) };
  return `${JSON.stringify(whole, undefined, 2)}\n`;
}

function shapeOf({ reading, also, fault, blown }: Read): ReadingShape {
  const shape = { ...readingShape(reading), ...(also && { parallel: parallelShape(also) }) };
  return fault ? { ...shape, fault: fault.id, blown } : shape;
}

/** A fault that not every variant asked about has is told by variant. */
function asText(found: Found, asked: number): string {
  const [first] = found.values();
  const isWhole = first?.fault === undefined || found.size === asked;
  if (isOne(found) && isWhole) return `${linesOf(first!).join('\n')}\n`;
  const blocks = [...found].map(([variant, read]) => {
    const [range, ...rest] = linesOf(read);
    return [`${variant}: ${range}`, ...rest.map(line => `  ${line}`)].join('\n');
  });
  return `${blocks.join('\n\n')}\n`;
}

function linesOf({ reading, also, fault, blown }: Read): readonly string[] {
  const lines = [...readingAsText(reading).split('\n'), ...(also ? [harmless(parallelInWords(also))] : [])];
  return fault ? [...lines, faultInWords(fault, blown)] : lines;
}

/** Variants with the same range are one to a reader, though different wires may be behind its ends. */
function isOne(found: Found): boolean {
  return new Set([...found.values()].map(read => JSON.stringify(shapeOf(read)))).size === 1;
}
