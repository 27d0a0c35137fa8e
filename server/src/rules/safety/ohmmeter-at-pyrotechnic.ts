import type { Situation } from '../../analysis/situation.ts';
import type { Case } from '../../analysis/view.ts';
import type { Lead, StepData } from '../../model/step.ts';
import { arrivalsAt, reachedSteps } from '../conditions/arrivals.ts';
import type { Rule } from '../rule.ts';
import { name } from '../wording.ts';
import { pressProcedure } from './example.ts';
import { hazardsIn, ownerOfPoint } from './hazards.ts';
import { wiredTo } from './wired-to.ts';

const currents: ReadonlySet<string> = new Set(['resistance', 'continuity', 'test lamp']);

export const ohmmeterAtPyrotechnic: Rule = {
  id: 'ohmmeter-at-pyrotechnic',
  severity: 'error',
  group: 'safety',
  on: 'procedure',
  title: 'A meter that drives its own current through an igniter',
  explanation: `
Resistance, continuity and a test lamp all send a current through what they touch. At an airbag, a belt tensioner or the igniter of an
extinguisher that current can fire it.

Do not measure ohms there. Take the plug apart and measure on the side that leads away from it, put the maker's test resistor in its place, or
read the value that the control unit shows. (Trade training: cut the supply, wait as long as the maker says, never a test lamp.)`,
  bad: pressProcedure(
    `
steps:
  look:
    set: { key: off }
    disconnect: [X7]
    cautions: [{ danger: Keep clear of the extinguisher nozzle }]
    measure: resistance
    red: X7/1 (Q1 side)
#        ^^^^ error ohmmeter-at-pyrotechnic: The meter's own current flows through \`Q1\`, which can fire
    black: X7/2 (Q1 side)
    limits: 1.8 Ω .. 2.6 Ω
    then: { within: not-found, otherwise: ask-the-maker }
`,
    'connect: [X7]',
  ),
  good: pressProcedure(
    `
steps:
  look:
    set: { key: off }
    disconnect: [X7]
    cautions: [{ danger: Keep clear of the extinguisher nozzle }]
    measure: resistance
    red: X7/2 (GND-1 side)
    black: GND-1
    limits: below 2 Ω
    then: { within: not-found, otherwise: ask-the-maker }
`,
    'connect: [X7]',
  ),
  *check(view) {
    const hasIgniters = view.cases.some(one => [...hazardsIn(one).values()].some(isPyrotechnic));
    const isMeant = ({ action }: StepData) => action.verb === 'measure' && currents.has(action.measure);
    for (const reached of hasIgniters ? reachedSteps(view, isMeant) : []) {
      const { action } = reached.data;
      if (action.verb !== 'measure') continue;
      const moments = arrivalsAt(reached).map(({ one, now }) => ({ one, after: one.after(reached.data, now) }));
      const found = [action.red, action.black].flatMap(lead => {
        const igniters = lead ? moments.flatMap(({ one, after }) => igniterAt(lead, one, after) ?? []) : [];
        return lead && igniters[0] !== undefined ? [{ lead, igniter: igniters[0] }] : [];
      });
      const [first] = found;
      if (!first) continue;
      yield {
        rule: 'ohmmeter-at-pyrotechnic',
        place: first.lead.point.place,
        message: `The meter's own current flows through ${name(first.igniter)}, which can fire`,
        detail: `${name(first.igniter)} is marked \`pyrotechnic\`, and ${name(first.lead.point.text)} is joined to it.`,
        help: 'Measure on the side of the plug that leads away from it, or read the value of the control unit.',
      };
    }
  },
};

/** The part or connector marked as pyrotechnic that a lead touches, directly or by wires. */
function igniterAt(lead: Lead, one: Case, now: Situation): string | undefined {
  const owner = ownerOfPoint(lead.point.text);
  const igniters = [...hazardsIn(one)].flatMap(([id, hazards]) => (isPyrotechnic(hazards) ? [id] : []));
  return igniters.find(id => (one.system.connectors.has(id) ? id === owner : touches(lead, id, one, now)));
}

function isPyrotechnic(hazards: readonly string[]): boolean {
  return hazards.includes('pyrotechnic');
}

function touches({ point, side }: Lead, part: string, one: Case, now: Situation): boolean {
  if (ownerOfPoint(point.text) === part) return side?.text !== 'harness' || !now.apart.has(part);
  const halves = wiredTo(part, one, now).get(point.text);
  return halves !== undefined && (halves === 'whole' || (side !== undefined && halves.has(side.text)));
}
