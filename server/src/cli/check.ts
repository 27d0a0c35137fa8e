import { type Command, Option } from 'commander';
import { URI } from 'vscode-uri';
import { version } from '../../../package.json';
import type { Severity } from '../base/finding.ts';
import { coloured, plain } from '../publish/paint.ts';
import { type Report, reportedFile, severities } from '../publish/report.ts';
import { reportAsJson } from '../publish/report-json.ts';
import { reportAsSarif } from '../publish/report-sarif.ts';
import { reportAsText } from '../publish/report-text.ts';
import { checkFile } from '../rules/run.ts';
import { findFiles } from './find-files.ts';
import { fixFiles } from './fix.ts';
import type { Finish, Host } from './host.ts';
import { openProject, type Project } from './project.ts';
import { Stats } from './stats.ts';

interface Options {
  readonly format: keyof typeof formats;
  readonly fix?: true;
  readonly stats?: true;
  readonly failOn: Severity;
}

/** `faultwalk check`: every finding in the named files. */
export function addCheck(program: Command, host: Host, finish: Finish): void {
  program
    .command('check')
    .summary('find what is wrong in files')
    .description(
      'Checks system, procedure and samples files. Files that these refer to are read as well, but only what is wrong in ' +
        'the named ones is reported. The exit status is 0 when nothing is found, 1 when something is, 2 when the command ' +
        'cannot be carried out.',
    )
    .argument('<paths...>', 'files, or folders with files')
    .addOption(new Option('--format <form>', 'how findings are written').choices(Object.keys(formats)).default('text'))
    .option('--fix', 'make the corrections that are certainly meant, then report what is left')
    .option('--stats', 'tell how long each stage took, and how much memory is used')
    .addOption(
      new Option('--fail-on <severity>', 'the least severity that gives exit status 1')
        .choices(severities)
        .default('error'),
    )
    .action(async (paths: string[], options: Options) => {
      const report = await check(paths, options, host);
      finish(isFailed(report, options.failOn) ? 1 : 0);
    });
}

async function check(paths: readonly string[], options: Options, host: Host): Promise<Report> {
  const stats = new Stats();
  const files = await stats.time('find', () => findFiles(host.folder, paths));
  const project = await stats.time('read', () => openProject(host.folder, files));
  if (options.fix) await stats.time('fix', () => fixFiles(project));
  const report = await stats.time('check', () => reportOn(project));
  await stats.time('write', () => host.out(formats[options.format](report, host)));
  if (options.stats) host.err(String(stats));
  return report;
}

function reportOn(project: Project): Report {
  return {
    files: project.named.map(uri => {
      const view = project.view(uri);
      return reportedFile(view, checkFile(view), project);
    }),
  };
}

const formats = {
  text: (report: Report, { colours }: Host) => reportAsText(report, colours ? coloured : plain),
  json: (report: Report) => reportAsJson(report),
  sarif: (report: Report, { folder }: Host) => reportAsSarif(report, { version, folder: `${URI.file(folder)}/` }),
};

function isFailed({ files }: Report, least: Severity): boolean {
  const counting = severities.slice(0, severities.indexOf(least) + 1);
  return files.some(file => file.findings.some(finding => counting.includes(finding.severity)));
}
