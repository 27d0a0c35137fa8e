import { type Report, totalsOf } from './report.ts';

/** The report for other programs. `DEVELOPERS.md` describes the shape, which only grows within a version. */
export function reportAsJson(report: Report): string {
  const findings = report.files.flatMap(({ path, findings }) =>
    findings.map(({ keys, ...rest }) => ({ path, ...rest })),
  );
  const shape = { version: 1, files: report.files.map(({ path }) => path), findings, totals: totalsOf(report) };
  return `${JSON.stringify(shape, undefined, 2)}\n`;
}
