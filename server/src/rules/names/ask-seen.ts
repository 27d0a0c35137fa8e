import type { Ref } from '../../base/place.ts';
import { dimensionFacts } from '../../base/quantity/dimension.ts';
import { parseLimit } from '../../base/quantity/limit.ts';
import type { Test } from '../../model/common.ts';
import { type Sight, sightsIn } from '../../model/sights.ts';
import { article } from '../../schema/words.ts';
import { name } from '../wording.ts';
import type { Asker } from './ask.ts';
import { findDatum } from './known.ts';
import { wrongLimit } from './numbers.ts';

/** Asks for what the machine does: `{ Y1: off, A1 keypad: [idle, off] }`. */
export function askSeen(asker: Asker, test: Test | undefined): void {
  const sights = sightsIn(asker.names.system);
  for (const { name, states } of (test ?? []).flat()) {
    const sight = sights.get(name.text);
    if (!sight) askUnseen(asker, name, sights);
    else if (sight.states.length > 0) asker.oneOf(states, sight.states, name.text, otherwise(sight));
    else for (const state of states) askLimit(asker, state, sight);
  }
}

function otherwise({ sort }: Sight): string | undefined {
  return sort === 'load' || sort === 'output' ? 'write `on` or `off`' : undefined;
}

/** What is meant is asked for as it is elsewhere, so that only the part of the name that is wrong is told. */
function askUnseen(asker: Asker, ref: Ref, sights: ReadonlyMap<string, Sight>): void {
  const { points, things, system } = asker.names;
  const kind = points.has(ref.text) ? 'point' : (system.parts.get(ref.text)?.data.kind ?? things.get(ref.text)?.sort);
  if (kind) {
    asker.say(ref, `Nobody sees what ${name(ref.text)} does`, {
      detail: `It is ${article(kind)}. ${whatIsSeen}`,
      among: [],
      otherwise: 'name what is seen to be on or off, or scan data',
    });
  } else if (findDatum(system, ref.text).part) asker.datum(ref.text, ref.place);
  else if (/[./]/.test(ref.text)) asker.point(ref);
  else {
    asker.say(ref, `Nothing that is seen is called ${name(ref.text)}`, {
      detail: whatIsSeen,
      among: sights.keys(),
      otherwise: 'add it to the system file',
    });
  }
}

const whatIsSeen =
  'Seen are coils, lamps, motors, heaters, LEDs, relays and modules, their outputs and scan data, and what can be set.';

function askLimit(asker: Asker, state: Ref, { name: owner, dimension, follows }: Sight): void {
  const number = follows === undefined ? undefined : asker.names.system.conditions.get(follows)?.number;
  if (follows !== undefined && number) {
    const finding = wrongLimit(state, follows, number);
    if (finding) asker.findings.push(finding);
    return;
  }
  if (parseLimit(state.text, dimension).value) return;
  const example = dimension ? `below ${dimensionFacts[dimension].example}` : 'above 5';
  asker.say(state, `${name(state.text)} is no limit for ${name(owner)}`, {
    detail: dimension
      ? `It is ${dimensionFacts[dimension].noun}, and has no states.`
      : 'It is a number, and has no states.',
    among: [],
    otherwise: `write a limit with its unit, such as ${name(example)}`,
  });
}
