import { starts } from '../../analysis/make-flow.ts';
import type { Situation } from '../../analysis/situation.ts';
import type { Case, ProcedureView } from '../../analysis/view.ts';
import { existsIn } from '../../model/common.ts';
import { type StepData, stepIn } from '../../model/step.ts';
import type { Rule } from '../rule.ts';
import { name } from '../wording.ts';
import { coldHeater } from './example.ts';
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
  bad: coldHeater(`
steps:
  look:
    title: Voltage across the heater
    set: { key: run }
    measure: voltage
    red: H1.1 (back-probe)
    black: H1.2 (back-probe)
    limits: at least 10 V
    then: { within: again, otherwise: around-it }
  again:
# ^^^^^ information measurement-repeats: \`again\` measures again what \`look\` has measured
# ^^^^^ information step-splits-nothing: \`again\` tells nothing apart: all that comes here leaves by \`within\`
    title: Voltage across the heater once more
    needs: { key: run }
    measure: voltage
    red: H1.1 (back-probe)
    black: H1.2 (back-probe)
    limits: at least 8 V
    then: { within: current, otherwise: around-it }
  current:
    title: Current of the heater
    needs: { key: run }
    measure: current
    around: W3
    limits: above 1 A
    then: { within: not-found, otherwise: the-heater }
  confirm: { operate: Switch the heater on, then: { it gets warm: done, it stays cold: look } }
endings:
  around-it: { mend: [G1, W1, F1, W2, S1, W3, W5, X1, W4, GND-1, H1], confirm: confirm }
  the-heater: { mend: [H1, W3, W4], confirm: confirm }
  not-found: { no fault: The heater has its current }
  done: { repaired: The heater gets warm }
`),
  good: coldHeater(`
steps:
  look:
    title: Voltage across the heater
    set: { key: run }
    measure: voltage
    red: H1.1 (back-probe)
    black: H1.2 (back-probe)
    limits: at least 10 V
    then: { within: current, otherwise: around-it }
  current:
    title: Current of the heater
    needs: { key: run }
    measure: current
    around: W3
    limits: above 1 A
    then: { within: not-found, otherwise: the-heater }
  confirm: { operate: Switch the heater on, then: { it gets warm: done, it stays cold: look } }
endings:
  around-it: { mend: [G1, W1, F1, W2, S1, W3, W5, X1, W4, GND-1, H1], confirm: confirm }
  the-heater: { mend: [H1, W3, W4], confirm: confirm }
  not-found: { no fault: The heater has its current }
  done: { repaired: The heater gets warm }
`),
  *check(view) {
    if (!saysWhatItShows(view)) return;
    for (const step of view.procedure.steps.values()) {
      const inCases = view.cases.filter(({ variant }) => existsIn(step, variant));
      const earlier = inCases.map(one => repeatedIn(view, one).get(step.id));
      const [first] = earlier;
      if (first === undefined || earlier.some(one => one === undefined)) continue;
      yield {
        rule: 'measurement-repeats',
        place: step.place,
        message: `${name(step.id)} measures again what ${name(first)} has measured`,
        detail:
          'The leads, the condition of the machine and what holds there are the same on every way that leads here.',
        help: 'Leave it out, or add branches to the earlier step.',
      };
    }
  },
};

/** By step: the earlier one that measures the same on every way to it. */
function repeatedIn({ procedure }: ProcedureView, one: Case): ReadonlyMap<string, string> {
  const { variant, circuit } = one;
  const known = new Map<string, Node>();
  const queue: Node[] = [];
  const come = (at: string, now: Situation, before: ReadonlyMap<string, string>) => {
    const key = `${at}|${now.key}`;
    const node = known.get(key);
    if (!node) {
      const fresh = { at, now, before };
      known.set(key, fresh);
      queue.push(fresh);
      return;
    }
    // What was measured on every way here.
    const shared = new Map([...node.before].filter(([what, step]) => before.get(what) === step));
    if (shared.size === node.before.size) return;
    node.before = shared;
    queue.push(node);
  };
  for (const start of starts(procedure)) come(start, circuit.rest, new Map());
  for (let node = queue.pop(); node; node = queue.pop()) {
    const step = procedure.steps.get(node.at);
    if (!step || !existsIn(step, variant)) continue;
    const data = stepIn(step, variant);
    const now = one.after(data, node.now);
    const what = measurementOf(data, now);
    const after =
      what === undefined || node.before.has(what) ? node.before : new Map([...node.before, [what, step.id]]);
    for (const { target } of data.branches) if (target) come(target.text, now, after);
  }
  const found = new Map<string, string | undefined>();
  for (const { at, now, before } of known.values()) {
    const step = procedure.steps.get(at);
    if (!step || !existsIn(step, variant)) continue;
    const data = stepIn(step, variant);
    const what = measurementOf(data, one.after(data, now));
    const earlier = what === undefined || data.provoke.length > 0 ? undefined : before.get(what);
    found.set(at, found.has(at) && found.get(at) !== earlier ? undefined : earlier);
  }
  return new Map([...found].flatMap(([at, earlier]) => (earlier === undefined ? [] : [[at, earlier] as const])));
}

interface Node {
  readonly at: string;
  readonly now: Situation;
  before: ReadonlyMap<string, string>;
}

/** What is read, and in which condition of the machine; undefined for what is no reading. */
function measurementOf({ action }: StepData, now: Situation): string | undefined {
  if (action.verb === 'read') return `${action.module?.text} ${action.datum?.text}|${now.key}`;
  if (action.verb !== 'measure') return undefined;
  const lead = (one: typeof action.red) => `${one?.point.text}(${one?.side?.text ?? ''})`;
  return [action.measure, lead(action.red), lead(action.black), action.around?.text ?? '', now.key].join('|');
}
