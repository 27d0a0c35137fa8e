import type { Case, ProcedureView } from '../analysis/view.ts';
import { partIn } from '../model/parts.ts';
import type { What } from '../planning/candidate.ts';
import { titleOfWhat } from '../planning/candidate.ts';
import { leadNeedsBackProbe } from '../planning/draft/leads.ts';
import { pairs, quoted, slug } from '../planning/draft/text.ts';

export interface StepAsked {
  /** The step behind which the new one goes. */
  readonly step: string;
  readonly variant: string;
  readonly test: What;
  readonly minutes: number;
}

export interface StepText {
  readonly name: string;
  readonly text: string;
  /** Where it is inserted. */
  readonly offset: number;
  /** Where in `text` the target of its first branch is to be written. */
  readonly cursor: number;
}

/** The text of a step that does a test in the situation of another step; undefined where that one does not stand in lines of its own. */
export function stepFor(view: ProcedureView, { step, variant, test, minutes }: StepAsked): StepText | undefined {
  const { procedure, tree } = view;
  const found = procedure.steps.get(step);
  const one = view.cases.find(one => one.variant === variant);
  if (!found || !one) return undefined;
  const { start, end } = tree.absolute(found.entry.span);
  const indent = tree.text.slice(tree.text.lastIndexOf('\n', start - 1) + 1, start);
  if (indent.trim() !== '') return undefined;
  const name = freshName(nameFor(test), procedure.steps, procedure.endings);
  const [first, ...others] = branchesOf(test, one);
  const head = [
    `${name}:`,
    `  title: ${quoted(titleOfWhat(test))}`,
    `  minutes: ${minutes}`,
    ...situationLines(one, step),
    ...actionLines(test, one, step),
    '  then:',
    `    ${first}: `,
  ];
  const written = (lines: readonly string[]) => lines.map(line => `${indent}${line}\n`).join('');
  const lineEnd = tree.text.indexOf('\n', end);
  const before = lineEnd < 0 ? '\n' : '';
  const upToCursor = before + written(head).slice(0, -1);
  return {
    name,
    text: `${upToCursor}\n${written(others.map(key => `    ${key}: `))}`,
    offset: lineEnd < 0 ? tree.text.length : lineEnd + 1,
    cursor: upToCursor.length,
  };
}

function nameFor(test: What): string {
  switch (test.do) {
    case 'inspect':
      return `look-at-${slug(test.item)}`;
    case 'read':
      return `read-${slug(`${test.module} ${test.datum}`)}`;
    case 'measure':
      return `at-${slug(test.red)}`;
  }
}

function freshName(wanted: string, ...taken: readonly ReadonlyMap<string, unknown>[]): string {
  let name = wanted;
  for (let i = 2; taken.some(names => names.has(name)); i++) name = `${wanted}-${i}`;
  return name;
}

/** The step may come to be reached from elsewhere, so it says all that is to hold. */
function situationLines({ flow, circuit }: Case, step: string): readonly string[] {
  const now = flow.during(step)[0];
  if (!now) return [];
  const set = [...now.states].filter(([name, state]) => circuit.rest.states.get(name) !== state);
  const apart = [...now.apart].sort();
  return [
    ...(set.length > 0 ? [`  set: ${pairs(set)}`] : []),
    ...(apart.length > 0 ? [`  disconnect: [${apart.map(quoted).join(', ')}]`] : []),
  ];
}

function actionLines(test: What, one: Case, step: string): readonly string[] {
  switch (test.do) {
    case 'inspect':
      return [`  inspect: [${quoted(test.item)}]`];
    case 'read': {
      const now = one.flow.during(step)[0] ?? one.circuit.rest;
      const good = one.circuit.scan(test.module, test.datum, now) ?? '';
      return [`  read: ${test.module} ${test.datum}`, `  expect: ${quoted(good)}`];
    }
    case 'measure': {
      const lead = (point: string) => `${point}${leadNeedsBackProbe(one, point) ? ' (back-probe)' : ''}`;
      return [
        '  measure: voltage',
        `  red: ${lead(test.red)}`,
        `  black: ${lead(test.black)}`,
        '  limits: from the circuit',
      ];
    }
  }
}

function branchesOf(test: What, { system, variant }: Case): readonly string[] {
  if (test.do !== 'inspect') return ['within', 'otherwise'];
  const part = system.parts.get(test.item);
  const data = part && partIn(part, variant);
  const fails = data?.kind === 'item' ? [...data.fails.keys()] : [];
  return [...fails.map(quoted), 'all sound'];
}
