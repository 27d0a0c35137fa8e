import { limitAt } from '../../analysis/limits.ts';
import type { Case, FileView } from '../../analysis/view.ts';
import { formatLimit, type Limit } from '../../base/quantity/limit.ts';
import { meterAmount } from '../../base/quantity/meter-amount.ts';
import { type Branch, type Step, type StepData, stepIn } from '../../model/step.ts';
import { touches } from '../project.ts';
import type { Hover } from './known.ts';

/** Which readings take the branch whose key the offset touches. */
export function branchHover(view: FileView, offset: number): Hover | undefined {
  if (view.kind !== 'procedure') return undefined;
  for (const step of view.procedure.steps.values()) {
    if (!touches(view.tree.absolute(step.entry.span), offset)) continue;
    for (const data of [step.data, ...step.byVariant.values()])
      for (const branch of data.branches) {
        const stretch = view.tree.absolute(branch.key.place.span);
        if (branch.match.on !== 'always' && touches(stretch, offset))
          return {
            ...stretch,
            markdown: `**${branch.key.text}**\n\n${meaning(branch, data, limitOf(step, data, view.cases))}`,
          };
      }
  }
  return undefined;
}

/** The limits of the step where they are the same in every variant in which it says this. */
function limitOf(step: Step, data: StepData, cases: readonly Case[]): Limit | undefined {
  const limits = cases.filter(one => stepIn(step, one.variant) === data).map(one => limitAt(data, one));
  const [first = limitAt(data, undefined), ...rest] = limits;
  return first && rest.every(limit => limit && formatLimit(limit) === formatLimit(first)) ? first : undefined;
}

function meaning({ key, match, target }: Branch, data: StepData, limit: Limit | undefined): string {
  const leads = target ? `, and leads to \`${target.text}\`` : '';
  const { action } = data;
  const specified =
    action.verb === 'measure' && action.specification ? `the limits of \`${action.specification.text}\`` : 'the limits';
  const expected =
    action.verb === 'read' && action.expect ? action.expect.map(ref => `\`${ref.text}\``).join(' or ') : '';
  switch (match.on) {
    case 'within':
      return `Taken by ${limit ? formatLimit(limit) : expected || `a reading inside ${specified}`}${leads}.`;
    case 'below':
      return `Taken by a reading ${limit && Number.isFinite(limit.low) ? `under ${lowEnd(limit)}` : `under ${specified}`}${leads}.`;
    case 'above':
      return `Taken by a reading ${limit && Number.isFinite(limit.high) ? `over ${highEnd(limit)}` : `over ${specified}`}${leads}.`;
    case 'otherwise':
      return `Taken by every reading that no other branch takes${action.verb === 'measure' ? ', `OL` included' : ''}${leads}.`;
    case 'limit':
      return `Taken by a reading ${inWords(key.text)}${leads}.`;
    default:
      return `An answer${leads}.`;
  }
}

/** As the author wrote it: `below 0.3 V` goes on from "a reading", a range and `OL` need a word between. */
function inWords(limit: string): string {
  return /^[a-z<>≤≥]/.test(limit) ? limit : `of ${limit}`;
}

function lowEnd(limit: Limit): string {
  return meterAmount(limit.low, limit.dimension);
}

function highEnd(limit: Limit): string {
  return meterAmount(limit.high, limit.dimension);
}
