import * as path from 'node:path';
import { type Command, Option } from 'commander';
import { glob } from 'tinyglobby';
import { URI } from 'vscode-uri';
import type { ProcedureView, SamplesView } from '../analysis/view.ts';
import { coloured, plain } from '../publish/paint.ts';
import { totalsOf, type WalkedFile, walked, walksAsJson } from '../publish/walks.ts';
import { walksAsText } from '../publish/walks-text.ts';
import { runSample } from '../walk/samples.ts';
import { coursesOf } from '../walk/walk.ts';
import { findFiles } from './find-files.ts';
import type { Finish, Host } from './host.ts';
import { openProject, type Project } from './project.ts';
import { unknown, WrongUse } from './wrong-use.ts';

interface Options {
  readonly samples?: string;
  readonly format: 'text' | 'json';
}

/** `faultwalk walk`: every sample walk, to the ending that it must reach. */
export function addWalk(program: Command, host: Host, finish: Finish): void {
  program
    .command('walk')
    .summary('walk the sample walks of procedures')
    .description(
      'Walks the readings of the samples files beside a procedure and compares the ending that is reached with the one that must ' +
        'be. The exit status is 0 when every walk reaches its ending, 1 when one does not, 2 when the command is wrong.',
    )
    .argument('<procedures...>', 'procedure files, samples files, or folders with them')
    .option('--samples <file>', 'this samples file instead of those beside the procedure')
    .addOption(new Option('--format <form>', 'how the walks are written').choices(['text', 'json']).default('text'))
    .action(async (paths: string[], { format, samples }: Options) => {
      const files = await walkAll(paths, samples, host);
      host.out(format === 'json' ? walksAsJson(files) : walksAsText(files, host.colours ? coloured : plain));
      finish(totalsOf(files).missed > 0 ? 1 : 0);
    });
}

async function walkAll(
  paths: readonly string[],
  samples: string | undefined,
  { folder }: Host,
): Promise<readonly WalkedFile[]> {
  const named = await findFiles(folder, paths);
  const walks = samples === undefined ? await samplesBeside(named) : await findFiles(folder, [samples]);
  const project = await openProject(folder, [...new Set([...named, ...walks])]);
  const wanted = new Set(named.map(file => URI.file(file).toString()));
  const files = project.named.flatMap(uri => {
    const view = project.view(uri);
    const isWanted = view.kind === 'samples' && (wanted.has(uri) || (view.of !== undefined && wanted.has(view.of)));
    return isWanted ? [walkFile(view, project)] : [];
  });
  if (totalsOf(files).walks > 0) return files;
  const where = paths.map(one => `\`${one}\``).join(', ');
  throw new WrongUse(
    `There is no sample walk for ${where}`,
    'keep sample walks in a file that ends in `.samples.yaml`',
  );
}

/** A samples file names its procedure and not the other way round, so those in the same folder are looked through. */
async function samplesBeside(files: readonly string[]): Promise<string[]> {
  const all: string[] = [];
  for (const folder of new Set(files.map(file => path.dirname(file)))) {
    const beside = await glob('*.samples.{yaml,yml}', { cwd: folder, absolute: true, caseSensitiveMatch: false });
    for (const file of beside.sort()) all.push(path.normalize(file));
  }
  return all;
}

function walkFile(view: SamplesView, project: Project): WalkedFile {
  const name = project.path(view.uri);
  const procedure = procedureOf(view, name);
  const walks = view.samples.walks.flatMap(sample => {
    const runs = runSample(procedure, sample);
    if (runs.length > 0) return runs.map(walked);
    const variants = coursesOf(procedure).map(course => course.variant);
    throw unknown('variant', sample.variant!.text, variants, `the procedure of \`${name}\``);
  });
  return { path: name, procedure: project.path(procedure.uri), walks };
}

function procedureOf({ samples, procedure }: SamplesView, name: string): ProcedureView {
  if (procedure) return procedure;
  const of = samples.of ? `the procedure \`${samples.of.text}\` of \`${name}\`` : `the procedure of \`${name}\``;
  throw new WrongUse(`There is no file for ${of}`, 'correct `samples of`');
}
