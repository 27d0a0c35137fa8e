import { limitAt } from '../../analysis/limits.ts';
import { resolveFile } from '../../analysis/resolve.ts';
import type { Situation } from '../../analysis/situation.ts';
import { dimensionFacts } from '../../base/quantity/dimension.ts';
import { existsIn } from '../../model/common.ts';
import { type EndingKind, isRepair } from '../../model/procedure.ts';
import { regionOf } from '../../model/region.ts';
import type { Branch, Caution, StepData } from '../../model/step.ts';
import type { BranchText, CautionText, QuestionText, Sheet } from '../../protocol/preview.ts';
import { rangeInWords } from '../../walk/choose.ts';
import { questionOf } from '../../walk/question.ts';
import type { Arrival } from '../../walk/situations.ts';
import type { Course, Position, Standing } from '../../walk/walk.ts';
import { expectedAt } from './expected-rows.ts';
import { instructionRows, prose, row, stepRows, things } from './step-rows.ts';
import { standingTitle } from './titles.ts';

/** One step or ending as it is done in this course, on arrival in this situation. */
export function sheetOf(course: Course, at: Position, arrival: Arrival | undefined, isAtHand: boolean): Sheet {
  if (at.kind === 'nowhere') return nowhereSheet(at);
  const before = arrival?.before;
  const sheet = at.kind === 'step' ? stepSheet(course, at, arrival) : endingSheet(course, at, before);
  return { ...sheet, name: at.name, isAtHand, title: standingTitle(course.procedure, course.variant, at.name) };
}

type Body = Omit<Sheet, 'name' | 'title' | 'isAtHand'>;

function stepSheet(course: Course, { data }: Standing & { kind: 'step' }, arrival: Arrival | undefined): Body {
  const { system, variant, of, procedure } = course;
  const { rows, example } = expectedAt(data, procedure.meter, of, arrival?.after);
  return {
    kind: 'step',
    minutes: data.minutes,
    isFinal: false,
    cautions: cautionsIn(data.cautions, variant),
    rows: [...stepRows(data, { system, before: arrival?.before }), ...rows],
    branches: data.branches.map(branch => branchText(course, data, branch)),
    question: questionText(course, data, example),
  };
}

function questionText(course: Course, data: StepData, example?: string): QuestionText {
  const question = questionOf(data, course);
  if (data.branches.length === 0) return { ask: 'nothing' };
  switch (question.ask) {
    case 'nothing':
      return { ask: 'go on', label: 'Done' };
    case 'number': {
      const label = data.action.verb === 'read' ? 'The scan tool shows' : 'The meter shows';
      return { ask: 'reading', label, example: example ?? dimensionFacts[question.dimension].example };
    }
    case 'state':
      return { ask: 'choice', choices: statesOffered(question.expected, question.known) };
    case 'answer':
      return { ask: 'choice', choices: [...question.answers, ...(question.others ? ['otherwise'] : [])] };
  }
}

/** Where the other states are not known, one answer stands for all of them. */
function statesOffered(expected: readonly string[], known: readonly string[]): string[] {
  return [...new Set([...expected, ...(known.length > 0 ? known : ['otherwise'])])];
}

function endingSheet(course: Course, { data, confirm }: Standing & { kind: 'ending' }, before?: Situation): Body {
  const { system, variant } = course;
  const goesOn = isRepair(data.kind) && confirm !== undefined;
  return {
    kind: 'ending',
    isFinal: confirm === undefined,
    cautions: cautionsIn(data.cautions, variant),
    rows: [
      row(itemLabels[data.kind] ?? '', things(data.items, { system })),
      ...instructionRows(data, { system, before }),
      row('Confirm by', prose(confirm && standingTitle(course.procedure, variant, confirm))),
    ].filter(({ entries }) => entries.length > 0),
    branches: [],
    continuesIn: data.file && resolveFile(course.procedure.uri, data.file.text),
    question: goesOn ? { ask: 'go on', label: 'Repair done, confirm it' } : { ask: 'nothing' },
  };
}

/** What other endings say stands in their title. */
const itemLabels: Partial<Record<EndingKind | 'none', string>> = {
  replace: 'Replace',
  mend: 'Mend',
  adjust: 'Adjust',
  refer: 'Suspect',
};

function nowhereSheet({ name, problem }: Position & { kind: 'nowhere' }): Sheet {
  return {
    kind: 'nowhere',
    name: name ?? '',
    title: problem.message,
    isAtHand: true,
    isFinal: true,
    cautions: [],
    rows: [],
    branches: [],
    question: { ask: 'nothing' },
  };
}

function branchText({ procedure, variant, of }: Course, data: StepData, { key, match, target }: Branch): BranchText {
  const to = target?.text;
  const step = to === undefined ? undefined : procedure.steps.get(to);
  const ending = to === undefined || step ? undefined : procedure.endings.get(to);
  const thing = step ?? ending;
  const kind = !thing || !existsIn(thing, variant) ? 'missing' : step ? 'step' : 'ending';
  const title = to === undefined ? 'nothing yet' : standingTitle(procedure, variant, to);
  const limit = limitAt(data, of);
  const region = match.on === 'limit' ? undefined : regionOf(match, limit);
  const range = region && limit && rangeInWords({ ...limit, ...region });
  return { key: match.on === 'always' ? 'then' : key.text, range, to, title, kind };
}

export function cautionsIn(cautions: readonly Caution[], variant: string): CautionText[] {
  return cautions.filter(one => existsIn(one, variant)).map(({ word, text }) => ({ word, text }));
}
