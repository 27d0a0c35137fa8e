import type { Situation } from '../../analysis/situation.ts';
import type { Fix } from '../../base/finding.ts';
import type { Declared } from '../../model/common.ts';
import type { EndingData } from '../../model/procedure.ts';
import type { Setting, StepData } from '../../model/step.ts';
import type { Condition } from '../../model/system.ts';
import { find } from '../../syntax/tree.ts';
import { addKey } from '../fixes.ts';
import type { Finding, Rule } from '../rule.ts';
import { name } from '../wording.ts';
import {
  type Arrival,
  arrivalsAt,
  circumstances,
  conditionsWithNeeds,
  everythingReached,
  failingPart,
  needInWords,
} from './arrivals.ts';
import { engineProcedure } from './example.ts';

export const stateLostItsNeed: Rule = {
  id: 'state-lost-its-need',
  severity: 'warning',
  group: 'conditions',
  on: 'procedure',
  title: 'A state that cannot last after this step',
  explanation: `
What is set stays set until another step sets it. This step takes away what another state needs: it turns the key off while the engine still
counts as running. On the machine the engine stops, but from here on the circuit is worked out with a running one.

Set the other condition in the same step as well.`,
  bad: engineProcedure(`
steps:
  look:
    set: { key: run, engine: running }
    operate: Watch the hour meter for a minute
    then: { counts: not-found, stands still: battery }
  battery:
    set: { key: off }
#               ^^^ warning state-lost-its-need: \`engine\` cannot stay at \`running\` with \`key\` at \`off\` [fix]
    measure: voltage
    red: G1.+
    black: G1.-
    limits: at least 12.1 V
    then: { within: not-found, otherwise: ask-the-maker }
endings:
  not-found: { no fault: The hour meter counts }
  ask-the-maker: { refer: Ask the maker }
`),
  good: engineProcedure(`
steps:
  look:
    set: { key: run, engine: running }
    operate: Watch the hour meter for a minute
    then: { counts: not-found, stands still: battery }
  battery:
    set: { key: off, engine: stopped }
    measure: voltage
    red: G1.+
    black: G1.-
    limits: at least 12.1 V
    then: { within: not-found, otherwise: ask-the-maker }
endings:
  not-found: { no fault: The hour meter counts }
  ask-the-maker: { refer: Ask the maker }
`),
  *check(view) {
    const isNeedy = view.cases.some(({ system }) => conditionsWithNeeds(system).length > 0);
    for (const reached of isNeedy ? everythingReached(view, data => data.set.length > 0) : []) {
      const { thing, data } = reached;
      const lost = arrivalsAt(reached).flatMap(arrival => losses(arrival, data));
      for (const setting of data.set) {
        const mine = lost.filter(l => l.setting === setting);
        if (mine[0]) yield finding(thing, mine[0], circumstances(mine, view));
      }
    }
  },
};

interface Loss extends Arrival {
  readonly after: Situation;
  readonly condition: Condition;
  readonly state: string;
  /** What took the need away. */
  readonly setting: Setting;
}

function losses({ one, now }: Arrival, data: StepData | EndingData): readonly Loss[] {
  const { set } = data;
  const after = one.after(data, now);
  return conditionsWithNeeds(one.system).flatMap(condition => {
    const state = now.states.get(condition.id) ?? '';
    const test = condition.needs.get(state);
    if (!test || set.some(s => s.name.text === condition.id)) return [];
    // A state that was not possible before is told where it was set.
    if (failingPart(test, now) || !failingPart(test, after)) return [];
    const setting = set.find(s => test.flat().some(part => part.name.text === s.name.text));
    return setting ? [{ one, now, after, condition, state, setting }] : [];
  });
}

function finding(thing: Declared, loss: Loss, when: string): Finding {
  const { condition, state, setting, after } = loss;
  const part = failingPart(condition.needs.get(state)!, after)!;
  const free = condition.states.find(s => !condition.needs.has(s.text));
  return {
    rule: 'state-lost-its-need',
    place: setting.state.place,
    message: `${name(condition.id, 16)} cannot stay at ${name(state, 12)} with ${name(setting.name.text, 16)} at ${name(setting.state.text, 12)}`,
    detail: `${when} ${name(thing.id)} is reached; ${name(state)} needs ${needInWords(part)}.`,
    help: free
      ? `Write \`${condition.id}: ${free.text}\` into the same \`set\`.`
      : `Set ${name(condition.id)} as well.`,
    fixes: free ? setAsWell(thing, condition.id, free.text) : [],
  };
}

function setAsWell(thing: Declared, condition: string, state: string): readonly Fix[] {
  const entry = find(thing.entry.value, 'set');
  return entry ? addKey({ ...thing, entry }, condition, state) : [];
}
