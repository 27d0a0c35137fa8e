import type { Severity } from '../../base/finding.ts';
import type { Rule, RuleGroup } from '../rule.ts';

/** What the pages of the stages before the rules need: the stages themselves find the mistakes. */
export interface StagePage {
  readonly title: string;
  readonly explanation: string;
  readonly bad: string;
  readonly good: string;
  readonly severity?: Severity;
  readonly group?: RuleGroup;
}

/** Records of the mistakes that a stage finds while it reads a file, with one page each. */
export function stageRules(pages: Readonly<Record<string, StagePage>>): readonly Rule[] {
  return Object.entries(pages).map(([id, { severity = 'error', group = 'text', ...page }]) => ({
    id,
    severity,
    group,
    ...page,
    on: 'stage',
  }));
}

/** A system file of which an example writes only the lines that matter. */
export function system(lines: string): string {
  return `
format: 1
system: lamp
${lines.replace(/^\n/, '')}`;
}
