import type { ProcedureView, SystemView } from '../../analysis/view.ts';
import type { Finding } from '../../base/finding.ts';
import { dimensionFacts } from '../../base/quantity/dimension.ts';
import { dimensionOf } from '../../model/read-step.ts';
import { lampProcedure } from '../example.ts';
import type { Rule } from '../rule.ts';
import { dataOf } from '../step-data.ts';
import { name } from '../wording.ts';

export const specificationOfOtherKind: Rule = {
  id: 'specification-of-other-kind',
  severity: 'error',
  group: 'limits',
  on: 'any',
  title: 'A specification for another kind of reading',
  explanation: `
The step measures one thing and goes by a table of another: volts by a table of ohms. Or a row of a table has limits in a unit that
its own measurement never shows. No reading can be compared with such limits.

Name a table of the same kind, or correct what is measured.`,
  bad: lampProcedure(`
steps:
  look:
    set: { key: run }
    measure: voltage
    red: E1.1
    black: GND-1
    specification: lamp-ohms/cold
#                  ^^^^^^^^^^^^^^ error specification-of-other-kind: \`look\` measures a voltage, and \`lamp-ohms\` is a table of resistance
    then: { within: not-found, otherwise: ask-the-maker }
endings:
  ask-the-maker: { refer: Ask the maker }
  not-found: { no fault: The lamp is bright }
`),
  good: lampProcedure(`
steps:
  look:
    disconnect: [X1]
    measure: resistance
    red: X1/1 (E1 side)
    black: X1/2 (E1 side)
    specification: lamp-ohms/cold
    then: { within: not-found, otherwise: ask-the-maker }
endings:
  ask-the-maker: { refer: Ask the maker, connect: [X1] }
  not-found: { no fault: The lamp is bright, connect: [X1] }
`),
  check(view) {
    if (view.kind === 'procedure') return inProcedure(view);
    return view.kind === 'system' ? inSystem(view) : [];
  },
};

function* inProcedure({ procedure, cases }: ProcedureView): Generator<Finding> {
  const systems = [...new Set(cases.map(c => c.system))];
  for (const step of procedure.steps.values()) {
    for (const { action } of dataOf(step)) {
      if (action.verb !== 'measure' || !action.specification) continue;
      const { text, place } = action.specification;
      const table = systems.map(s => s.specifications.get(text.slice(0, text.lastIndexOf('/')))).find(t => t);
      const [own, other] = [dimensionOf[action.measure], table && dimensionOf[table.meter.measure]];
      if (!table || !own || !other || own === other) continue;
      yield {
        rule: 'specification-of-other-kind',
        place,
        message: `${name(step.id, 20)} measures ${dimensionFacts[own].noun}, and ${name(table.id, 20)} is a table of ${other}`,
        detail: 'No reading of the step can be compared with the limits of the table.',
        help: 'Name a table of the same kind, or correct `measure`.',
        related: [
          { place: table.meter.measurePlace, message: `${name(table.id)} measures ${dimensionFacts[other].noun}` },
        ],
      };
    }
  }
}

function* inSystem({ system }: SystemView): Generator<Finding> {
  for (const table of system.specifications.values()) {
    const own = dimensionOf[table.meter.measure];
    for (const { id, limits } of table.rows.values()) {
      if (!own || !limits?.limit || limits.limit.dimension === own) continue;
      const units = dimensionFacts[own].offered;
      yield {
        rule: 'specification-of-other-kind',
        place: limits.place,
        message: `${name(table.id, 20)} measures ${dimensionFacts[own].noun}, and ${name(id, 20)} has ${dimensionFacts[limits.limit.dimension].noun}`,
        detail: 'No reading of the table can be compared with these limits.',
        help: `Write the limits in ${units}, or correct \`measure\`.`,
      };
    }
  }
}
