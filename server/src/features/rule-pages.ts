import { ruleById, rules } from '../rules/index.ts';

/** What a person reads about a rule. */
export interface RulePage {
  readonly id: string;
  readonly title: string;
  readonly explanation: string;
}

export function ruleOf(id: string): RulePage | undefined {
  return ruleById.get(id);
}

export function ruleIds(): string[] {
  return rules.map(({ id }) => id);
}
