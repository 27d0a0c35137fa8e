import { type Situation, situation } from '../../analysis/situation.ts';
import type { Case } from '../../analysis/view.ts';
import { situationInWords } from '../../analysis/words/situation.ts';
import { formatQuantity } from '../../base/quantity/format.ts';
import type { Ref } from '../../model/common.ts';
import type { Meter } from '../../model/procedure.ts';
import type { StepData } from '../../model/step.ts';
import { type Arrival, arrivalsAt, reachedSteps } from '../conditions/arrivals.ts';
import type { Finding, Rule } from '../rule.ts';
import { name } from '../wording.ts';
import { pressProcedure } from './example.ts';
import { isPowered, mostAmperes } from './power.ts';

export const unpluggedWithPowerOn: Rule = {
  id: 'unplugged-with-power-on',
  severity: 'warning',
  group: 'safety',
  on: 'procedure',
  title: 'Something unplugged with the power on',
  explanation: `
A contact that opens under load draws an arc, which burns it and can light vapour; a coil answers with a voltage of hundreds of volts, and a
module that loses its ground before its supply can be destroyed.

Switch off in the same step with \`set\`, or take the fuse out first: a step does what it \`set\`s before it takes anything apart, and what it
\`remove\`s comes before what it \`disconnect\`s. The rule speaks from 50 mA on, and at a module that has its supply (common practice, no source).`,
  bad: pressProcedure(
    `
steps:
  look:
    set: { key: run }
    cautions: [{ warning: Release the pressure before working at the valve }]
    disconnect: [Y1]
#                ^^ warning unplugged-with-power-on: \`Y1\` is taken apart while 1.4 A flows
    measure: voltage
    red: Y1.1 (harness side)
    black: GND-1
    limits: at least 11.5 V
    then: { within: not-found, otherwise: ask-the-maker }
`,
    'connect: [Y1]',
  ),
  good: pressProcedure(
    `
steps:
  look:
    set: { key: off }
    cautions: [{ warning: Release the pressure before working at the valve }]
    disconnect: [Y1]
    do: Turn the key off, then unplug the valve
    then: feed
  feed:
    set: { key: run }
    measure: voltage
    red: Y1.1 (harness side)
    black: GND-1
    limits: at least 11.5 V
    then: { within: not-found, otherwise: ask-the-maker }
`,
    'connect: [Y1]',
  ),
  *check(view) {
    const { meter } = view.procedure;
    for (const reached of reachedSteps(view, ({ remove, disconnect }) => remove.length + disconnect.length > 0)) {
      const { data } = reached;
      const refs = [...data.remove, ...data.disconnect];
      const arrivals = arrivalsAt(reached);
      const each = arrivals.map(arrival => powers(arrival, data, meter));
      for (const [i, ref] of refs.entries()) {
        const first = each.findIndex(powered => powered[i]);
        if (first >= 0) yield finding(ref, arrivals[first]!.one, each[first]![i]!, meter);
      }
    }
  },
};

interface Powered {
  readonly now: Situation;
  /** Of a module that has its supply; else amperes flow. */
  readonly amperes: number | undefined;
}

/** For each thing that is taken apart, in its turn, whether it has power on it. It is kept, as each answer costs a solve. */
function powers({ one, now }: Arrival, data: StepData, meter: Meter): readonly (Powered | undefined)[] {
  const known = memory.get(data) ?? new Map<Situation, readonly (Powered | undefined)[]>();
  memory.set(data, known);
  const found = known.get(now) ?? inTurn(one, data, now, meter);
  known.set(now, found);
  return found;
}

const memory = new WeakMap<StepData, Map<Situation, readonly (Powered | undefined)[]>>();

function inTurn(one: Case, data: StepData, arriving: Situation, meter: Meter): readonly (Powered | undefined)[] {
  let now = one.after({ set: data.set, connect: data.connect, refit: data.refit }, arriving);
  return [...data.remove, ...data.disconnect].map(({ text }) => {
    const found = now.apart.has(text) ? undefined : powered(one, text, now, meter);
    now = situation(now.states, new Set([...now.apart, text]), now.held);
    return found;
  });
}

function powered(one: Case, id: string, now: Situation, meter: Meter): Powered | undefined {
  const amperes = one.circuit.currentThrough(id, now);
  if (amperes > mostAmperes) return { now, amperes };
  return isPowered(one, id, now, meter) ? { now, amperes: undefined } : undefined;
}

function finding({ text, place }: Ref, one: Case, { now, amperes }: Powered, meter: Meter): Finding {
  const way = switchedOff(one, text, now, meter);
  return {
    rule: 'unplugged-with-power-on',
    place,
    message:
      amperes === undefined
        ? `${name(text)} is unplugged while it has its supply`
        : `${name(text)} is taken apart while ${formatQuantity(amperes, 'current', { digits: 2 })} flows`,
    detail: `So it is with ${situationInWords(now, one.circuit.rest) || 'everything at rest'}, in the moment before it comes apart.`,
    help: way
      ? `Switch off in this step first, for example \`set: { ${way} }\`.`
      : 'Switch off in this step first, or take its fuse out under `remove`.',
  };
}

/** One thing put back to rest that takes the power away. */
function switchedOff(one: Case, id: string, now: Situation, meter: Meter): string | undefined {
  for (const [thing, state] of one.circuit.rest.states) {
    if (now.states.get(thing) === state) continue;
    const off = situation(new Map([...now.states, [thing, state]]), now.apart, now.held);
    if (!powered(one, id, off, meter)) return `${thing}: ${state}`;
  }
  return undefined;
}
