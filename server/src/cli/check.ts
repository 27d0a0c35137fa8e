import type { Command } from 'commander';
import { Option } from 'commander';
import type { Severity } from '../base/finding.ts';
import { coloured, plain } from '../publish/paint.ts';
import { type Report, reportedFile, severities } from '../publish/report.ts';
import { reportAsJson } from '../publish/report-json.ts';
import { reportAsText } from '../publish/report-text.ts';
import { checkFile } from '../rules/run.ts';
import { findFiles } from './find-files.ts';
import type { Finish, Host } from './host.ts';
import { openProject, type Project } from './project.ts';

interface Options {
  readonly format: 'text' | 'json';
  readonly failOn: Severity;
}

/** `faultwalk check`: every finding in the named files. */
export function addCheck(program: Command, host: Host, finish: Finish): void {
  program
    .command('check')
    .summary('find what is wrong in files')
    .description(
      'Checks system, procedure and samples files. Files that these refer to are read as well, but only what is wrong in the ' +
        'named ones is reported. The exit status is 0 when nothing is found, 1 when something is, 2 when the command is wrong.',
    )
    .argument('<paths...>', 'files, or folders with files')
    .addOption(new Option('--format <form>', 'how findings are written').choices(['text', 'json']).default('text'))
    .addOption(
      new Option('--fail-on <severity>', 'the least severity that counts for the exit status')
        .choices(severities)
        .default('error'),
    )
    .action(async (paths: string[], options: Options) => {
      const project = await openProject(host.folder, await findFiles(host.folder, paths));
      const report = reportOf(project);
      host.out(write(report, options, host));
      finish(isFailed(report, options.failOn) ? 1 : 0);
    });
}

function reportOf(project: Project): Report {
  return {
    files: project.named.map(uri => {
      const view = project.view(uri);
      return reportedFile(view, checkFile(view), project);
    }),
  };
}

function write(report: Report, { format }: Options, { colours }: Host): string {
  switch (format) {
    case 'text':
      return reportAsText(report, colours ? coloured : plain);
    case 'json':
      return reportAsJson(report);
  }
}

function isFailed({ files }: Report, least: Severity): boolean {
  const counting = severities.slice(0, severities.indexOf(least) + 1);
  return files.some(file => file.findings.some(finding => counting.includes(finding.severity)));
}
