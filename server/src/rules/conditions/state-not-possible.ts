import type { Fix } from '../../base/finding.ts';
import type { Declared, TestPart } from '../../model/common.ts';
import type { Setting } from '../../model/step.ts';
import { find } from '../../syntax/tree.ts';
import { addKey } from '../fixes.ts';
import type { Rule } from '../rule.ts';
import { name } from '../wording.ts';
import {
  arrivalsAt,
  circumstances,
  conditionsWithNeeds,
  everythingReached,
  failingPart,
  needInWords,
} from './arrivals.ts';
import { engineProcedure } from './example.ts';

export const stateNotPossible: Rule = {
  id: 'state-not-possible',
  severity: 'error',
  group: 'conditions',
  on: 'procedure',
  title: 'A state set while what it needs does not hold',
  explanation: `
The system file says under \`needs\` when a state is possible: an engine runs only while the key is on. This step sets the state although, on some
path, what it needs does not hold then. The circuit would be worked out for a machine that cannot exist.

Set what is needed in the same step.`,
  bad: engineProcedure(`
steps:
  look:
    set: { engine: running }
#                  ^^^^^^^ error state-not-possible: \`engine\` cannot be at \`running\` while \`key\` is at \`off\` [fix]
    operate: Watch the hour meter for a minute
    then: { counts: not-found, stands still: ask-the-maker }
endings:
  not-found: { no fault: The hour meter counts }
  ask-the-maker: { refer: Ask the maker }
`),
  good: engineProcedure(`
steps:
  look:
    set: { key: run, engine: running }
    operate: Watch the hour meter for a minute
    then: { counts: not-found, stands still: ask-the-maker }
endings:
  not-found: { no fault: The hour meter counts }
  ask-the-maker: { refer: Ask the maker }
`),
  *check(view) {
    const isNeedy = view.cases.some(({ system }) => conditionsWithNeeds(system).length > 0);
    for (const reached of isNeedy ? everythingReached(view, data => data.set.length > 0) : []) {
      const { thing, data } = reached;
      for (const setting of data.set) {
        const failing = arrivalsAt(reached).flatMap(({ one, now }) => {
          const test = one.system.conditions.get(setting.name.text)?.needs.get(setting.state.text);
          const after = test && one.after(data, now);
          const part = test && after && failingPart(test, after);
          return part ? [{ one, now, after, part }] : [];
        });
        const [first] = failing;
        if (!first) continue;
        const { part, after } = first;
        const state = after.states.get(part.name.text) ?? '';
        yield {
          rule: 'state-not-possible',
          place: setting.state.place,
          message: `${name(setting.name.text, 16)} cannot be at ${name(setting.state.text, 12)} while ${name(part.name.text, 16)} is at ${name(state, 12)}`,
          detail: `The system says that this state needs ${needInWords(part)}. ${circumstances(failing, view)} the step is reached, and it does not set that.`,
          help: 'Set what is needed in the same step.',
          related: [{ place: part.name.place, message: 'what the state needs' }],
          fixes: setAsWell(thing, data.set, part),
        };
      }
    }
  },
};

function setAsWell(thing: Declared, set: readonly Setting[], { name: needed, states }: TestPart): readonly Fix[] {
  const entry = find(thing.entry.value, 'set');
  const [state] = states;
  if (!entry || !state || set.some(s => s.name.text === needed.text)) return [];
  return addKey({ ...thing, entry }, needed.text, state.text);
}
