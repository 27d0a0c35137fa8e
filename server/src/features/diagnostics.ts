import type { Finding, Severity } from '../base/finding.ts';
import { type Location, locate, type Project, type Stretch } from './project.ts';

/** A finding as an editor shows it. */
export interface Diagnostic extends Stretch {
  readonly rule: string;
  readonly severity: Severity;
  /** What is wrong, why, and what to do, each on its own line. */
  readonly message: string;
  readonly related: readonly (Location & { readonly message: string })[];
  /** Nothing uses it: editors show such text faded. */
  readonly isUnnecessary: boolean;
}

/** So many findings of one file are shown; whoever sees them has enough to do. */
const mostFindings = 500;

export function diagnostics(
  project: Project,
  uri: string,
  findings: readonly (Finding & { severity: Severity })[],
): Diagnostic[] {
  return findings
    .filter(({ place }) => place.uri === uri)
    .slice(0, mostFindings)
    .flatMap(finding => {
      const where = locate(project, finding.place);
      return where
        ? [
            {
              start: where.start,
              end: where.end,
              rule: finding.rule,
              severity: finding.severity,
              message: wholeMessage(finding),
              related: relatedTo(project, finding),
              isUnnecessary: /^(unused|unreachable|dead)-/.test(finding.rule),
            },
          ]
        : [];
    });
}

export function wholeMessage({ message, detail, help }: Finding): string {
  return [message, detail, help && `help: ${help}`].filter(line => line !== undefined && line !== '').join('\n');
}

function relatedTo(project: Project, { related = [] }: Finding): Diagnostic['related'] {
  return related.flatMap(({ place, message }) => {
    const where = locate(project, place);
    return where ? [{ ...where, message }] : [];
  });
}
