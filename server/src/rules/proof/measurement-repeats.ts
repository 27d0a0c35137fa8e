import { starts } from '../../analysis/make-flow.ts';
import type { Situation } from '../../analysis/situation.ts';
import type { Case, ProcedureView } from '../../analysis/view.ts';
import { existsIn } from '../../model/common.ts';
import { type Step, type StepData, stepIn } from '../../model/step.ts';
import type { Rule } from '../rule.ts';
import { name } from '../wording.ts';
import { heaterBut, soundHeater } from './example.ts';
import { saysWhatItShows } from './proved.ts';

export const measurementRepeats: Rule = {
  id: 'measurement-repeats',
  severity: 'information',
  group: 'proof',
  on: 'procedure',
  needsWholeFile: true,
  title: 'A measurement that was made before',
  explanation: `
On every way to this step the same reading was taken before, at the same places and with the machine in the same condition, and nothing is done
here that could bring out a fault which comes and goes. What it shows is known already.

Leave the step out, or let the earlier step lead on by more branches.`,
  bad: heaterBut([
    'within: current, otherwise: around-it }\n',
    `within: again, otherwise: around-it }
  again:
# ^^^^^ information measurement-repeats: \`again\` measures again what \`look\` has measured
    title: Voltage across the heater once more
    needs: { key: run }
    measure: voltage
    red: H1.1 (back-probe)
    black: H1.2 (back-probe)
    limits: at least 8 V
    then: { within: current, otherwise: around-it }
`,
  ]),
  good: soundHeater,
  *check(view) {
    if (!saysWhatItShows(view)) return;
    for (const [step, earlier] of repeatsIn(view)) {
      yield {
        rule: 'measurement-repeats',
        place: step.place,
        message: `${name(step.id)} measures again what ${name(earlier)} has measured`,
        detail:
          'The leads, the condition of the machine and what holds there are the same on every way that leads here.',
        help: 'Leave it out, or add branches to the earlier step.',
      };
    }
  },
};

/** Steps that measure again in every variant, each with the earlier one. */
export function repeatsIn(view: ProcedureView): ReadonlyMap<Step, string> {
  const byCase = new Map(view.cases.map(one => [one, repeatedIn(view, one)]));
  return new Map(
    [...view.procedure.steps.values()].flatMap(step => {
      const cases = view.cases.filter(({ variant }) => existsIn(step, variant));
      const [first, ...others] = cases.map(one => byCase.get(one)!.get(step.id));
      return first === undefined || others.includes(undefined) ? [] : [[step, first] as const];
    }),
  );
}

/** By step: the earlier one that measures the same on every way to it. */
function repeatedIn({ procedure }: ProcedureView, one: Case): ReadonlyMap<string, string> {
  const { first, all } = nodesIn(procedure, one);
  const alike = new Map<string, Node[]>();
  for (const node of all) if (node.what !== undefined) alike.set(node.what, [...(alike.get(node.what) ?? []), node]);
  const found = new Map<string, string | undefined>();
  for (const group of alike.values()) {
    const steps = [...new Set(group.map(({ at }) => at))];
    for (const node of group) {
      const others = steps.filter(at => at !== node.at);
      const isKnown = node.provokes === 0 && others.length > 0 && !isReached(node, first, group);
      const earlier = isKnown ? others[0] : undefined;
      found.set(node.at, found.has(node.at) && found.get(node.at) !== earlier ? undefined : earlier);
    }
  }
  return new Map([...found].flatMap(([at, earlier]) => (earlier === undefined ? [] : [[at, earlier] as const])));
}

/** A step in one condition of the machine. */
interface Node {
  readonly at: string;
  readonly what?: string;
  readonly provokes: number;
  readonly next: Node[];
}

function nodesIn(procedure: ProcedureView['procedure'], one: Case): { first: readonly Node[]; all: readonly Node[] } {
  const known = new Map<string, Node>();
  const come = (at: string, arrived: Situation): Node | undefined => {
    const key = `${at}|${arrived.key}`;
    const before = known.get(key);
    const step = procedure.steps.get(at);
    if (before || !step || !existsIn(step, one.variant)) return before;
    const data = stepIn(step, one.variant);
    const now = one.after(data, arrived);
    const node: Node = { at, what: measurementOf(data, now), provokes: data.provoke.length, next: [] };
    known.set(key, node);
    waiting.push(() => {
      for (const { target } of data.branches) {
        const next = target && come(target.text, now);
        if (next) node.next.push(next);
      }
    });
    return node;
  };
  const waiting: (() => void)[] = [];
  const first = starts(procedure).flatMap(start => come(start, one.circuit.rest) ?? []);
  for (let go = waiting.pop(); go; go = waiting.pop()) go();
  return { first, all: [...known.values()] };
}

/** Whether some way leads to a node past all steps that measure the same. */
function isReached(node: Node, first: readonly Node[], group: readonly Node[]): boolean {
  const closed = new Set(group.filter(({ at }) => at !== node.at));
  const seen = new Set<Node>(first);
  for (const one of seen) {
    if (one === node) return true;
    if (!closed.has(one)) for (const next of one.next) seen.add(next);
  }
  return false;
}

/** What is read, and in which condition of the machine; undefined for what is no reading. */
function measurementOf({ action }: StepData, now: Situation): string | undefined {
  if (action.verb === 'read') return `${action.module?.text} ${action.datum?.text}|${now.key}`;
  if (action.verb !== 'measure') return undefined;
  const lead = (one: typeof action.red) => `${one?.point.text}(${one?.side?.text ?? ''})`;
  return [action.measure, lead(action.red), lead(action.black), action.around?.text ?? '', now.key].join('|');
}
