import type { Severity } from '../base/finding.ts';
import { harmless, type Paint, plain } from './paint.ts';
import { type Report, type ReportedFile, type ReportedFinding, severities, totalsOf } from './report.ts';
import { sourceLine } from './source-line.ts';

/** The report for a reader at a terminal: a block for each finding and one line of totals. */
export function reportAsText(report: Report, paint: Paint = plain): string {
  const blocks = report.files.flatMap(file => file.findings.map(finding => block(file, finding, paint)));
  return [...blocks, totalLine(report)].join('\n\n').concat('\n');
}

function block({ path, lines }: ReportedFile, finding: ReportedFinding, paint: Paint): string {
  const { rule, severity, message, detail, help, range, related } = finding;
  return [
    `${paint('bold', `${path}:${place(range)}`)} ${paint(severity, severity)} ${rule}`,
    ...indented(message),
    ...indented(detail),
    ...indented(help && `help: ${help}`),
    ...sourceLine(lines, range).map(line => paint('dim', line)),
    ...related.flatMap(one => indented(`${one.path}:${place(one.range)}: ${one.message}`)),
  ].join('\n');
}

function place({ start }: ReportedFinding['range']): string {
  return `${start.line + 1}:${start.character + 1}`;
}

function indented(text: string | undefined): string[] {
  return text ? text.split(/\r?\n/).map(line => `  ${harmless(line)}`) : [];
}

function totalLine(report: Report): string {
  const totals = totalsOf(report);
  const files = counted(totals.files, 'file');
  if (totals.findings === 0) return `No findings in ${files}`;
  const each = severities.flatMap(severity => (totals[severity] > 0 ? [inWords(severity, totals[severity])] : []));
  const fixable = report.files.flatMap(file => file.findings).filter(f => f.fixes.some(fix => fix.preferred)).length;
  const hint = fixable > 0 ? `\n${fixable} of them can be mended by --fix` : '';
  return `${counted(totals.findings, 'finding')} in ${totals.filesWithFindings} of ${files}: ${each.join(', ')}${hint}`;
}

function inWords(severity: Severity, count: number): string {
  return severity === 'information' ? `${count} for information` : counted(count, severity);
}

function counted(count: number, what: string): string {
  return `${count} ${what}${count === 1 ? '' : 's'}`;
}
