import { type Command, Option } from 'commander';
import { coverageOf } from '../proof/coverage.ts';
import { provePairs } from '../proof/pairs.ts';
import { prove } from '../proof/prove.ts';
import { coloured, plain } from '../publish/paint.ts';
import { isClean, type ProvedFile, proofAsJson } from '../publish/proof-json.ts';
import { proofAsText } from '../publish/proof-text.ts';
import { findFiles } from './find-files.ts';
import type { Finish, Host } from './host.ts';
import { openProject } from './project.ts';
import { WrongUse } from './wrong-use.ts';

interface Options {
  readonly format: 'text' | 'json';
  readonly pairs?: string;
}

/** `faultwalk prove`: every modelled fault, walked through procedures. */
export function addProve(program: Command, host: Host, finish: Finish): void {
  program
    .command('prove')
    .summary('walk every modelled fault through procedures')
    .description(
      'Walks every fault of the system, hard and intermittent, and a good machine through each procedure in every variant, over all ' +
        'tolerances, and says where each ends. The exit status is 0 when none ends at a wrong part, at nothing wrong, or stuck, and 1 ' +
        'when one does.',
    )
    .argument('<procedures...>', 'procedure files, or folders with them')
    .option('--pairs <many>', 'walk so many pairs of faults as well, spread evenly over all pairs; or `all` of them')
    .addOption(new Option('--format <form>', 'how the walks are written').choices(['text', 'json']).default('text'))
    .action(async (paths: string[], { format, pairs }: Options) => {
      const files = await proveAll(paths, host, pairs === undefined ? 0 : countIn(pairs));
      host.out(format === 'json' ? proofAsJson(files) : proofAsText(files, host.colours ? coloured : plain));
      finish(isClean(files) ? 0 : 1);
    });
}

async function proveAll(paths: readonly string[], { folder }: Host, pairs: number): Promise<readonly ProvedFile[]> {
  const project = await openProject(folder, await findFiles(folder, paths));
  const files = project.named.flatMap((uri): ProvedFile[] => {
    const view = project.view(uri);
    if (view.kind !== 'procedure') return [];
    if (view.cases.length === 0) {
      throw new WrongUse(
        `\`${project.path(uri)}\` applies to no system that can be read`,
        'name its system file under `applies to`',
      );
    }
    const coverage = coverageOf(prove(view)).map(one => ({ ...one, system: project.path(one.system) }));
    if (pairs === 0) return [{ path: project.path(uri), coverage }];
    const walked = provePairs(view, { most: pairs }).map(({ of, ...one }) => ({ variant: of.variant, ...one }));
    return [{ path: project.path(uri), coverage, pairs: walked }];
  });
  if (files.length > 0) return files;
  const where = paths.map(one => `\`${one}\``).join(', ');
  throw new WrongUse(`There is no procedure in ${where}`, 'name a file that ends in `.procedure.yaml`');
}

function countIn(text: string): number {
  if (text === 'all') return Infinity;
  if (!/^[1-9]\d{0,8}$/.test(text))
    throw new WrongUse(`\`--pairs ${text}\` is no number of pairs`, 'write a number, or `all`');
  return Number(text);
}
