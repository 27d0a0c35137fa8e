import type { ProcedureView, SystemView } from '../../analysis/view.ts';
import type { Finding } from '../../base/finding.ts';
import { type Declared, existsIn } from '../../model/common.ts';
import type { System, Wire } from '../../model/system.ts';
import type { Rule } from '../rule.ts';
import { inVariants, name } from '../wording.ts';

export const duplicateName: Rule = {
  id: 'duplicate-name',
  severity: 'error',
  group: 'names',
  on: 'any',
  title: 'One name for two things',
  explanation: `
Two things have the same name: a part and a connector, a step and an ending, two wires. Wherever the name stands, a technician
cannot tell which one is meant, and neither can the check.

Give one of them another name. A wire may stand twice if no variant has both.`,
  bad: `
format: 1
system: two-lamps
parts:
  G1: { kind: battery, voltage: 12.6 V ± 0.4 V, internal resistance: 10 mΩ }
  E1: { kind: resistor, resistance: 10 Ω ± 5 % }
wires:
  - W1: G1.+ to E1.1, 1.5 mm², 2 m
  - W1: E1.2 to G1.-, 1.5 mm², 2 m
#   ^^ error duplicate-name: \`W1\` is the name of a wire already
`,
  good: `
format: 1
system: two-lamps
parts:
  G1: { kind: battery, voltage: 12.6 V ± 0.4 V, internal resistance: 10 mΩ }
  E1: { kind: resistor, resistance: 10 Ω ± 5 % }
wires:
  - W1: G1.+ to E1.1, 1.5 mm², 2 m
  - W2: E1.2 to G1.-, 1.5 mm², 2 m
`,
  check(view) {
    if (view.kind === 'procedure') return inProcedure(view);
    return view.kind === 'system' ? inSystem(view) : [];
  },
};

function* inProcedure({ procedure }: ProcedureView): Generator<Finding> {
  for (const ending of procedure.endings.values()) {
    const step = procedure.steps.get(ending.id);
    if (step) yield finding(ending, step, 'a step', 'A branch with this name leads to the step, never to this ending.');
  }
}

function* inSystem({ system }: SystemView): Generator<Finding> {
  const taken = new Map<string, { sort: string; thing: Declared }>();
  for (const [sort, things] of namespaces(system)) {
    for (const thing of things) {
      const before = taken.get(thing.id);
      if (before && before.sort !== sort) yield finding(thing, before.thing, before.sort, whichOne);
      else if (!before) taken.set(thing.id, { sort, thing });
    }
  }
  for (const part of system.parts.values()) {
    const condition = system.conditions.get(part.id);
    const isSet =
      part.data.kind === 'coded switches' || (part.data.kind === 'switch' && part.data.positions.length > 0);
    if (condition && isSet) yield finding(part, condition, 'a condition', 'In `set` the condition would be meant.');
  }
  yield* doubleWires(system);
}

const whichOne = 'Where this name stands, nobody can tell which one is meant.';

function namespaces(system: System): readonly (readonly [string, Iterable<Declared>])[] {
  const { parts, connectors, grounds, splices, wires } = system;
  return [
    ['a part', parts.values()],
    ['a connector', connectors.values()],
    ['a ground', grounds.values()],
    ['a splice', splices.values()],
    ['a wire', wires],
  ];
}

function* doubleWires({ wires, variants }: System): Generator<Finding> {
  const known = new Map<string, Wire[]>();
  for (const wire of wires) {
    const before = known.get(wire.id) ?? [];
    known.set(wire.id, [...before, wire]);
    for (const other of before) {
      const both = variants.filter(v => existsIn(wire, v) && existsIn(other, v));
      if (both.length === 0) continue;
      const where = inVariants(both, variants);
      yield finding(wire, other, 'a wire', where ? `There are two of them${where}.` : whichOne);
      break;
    }
  }
}

function finding(thing: Declared, other: Declared, sort: string, detail: string): Finding {
  return {
    rule: 'duplicate-name',
    place: thing.place,
    message: `${name(thing.id)} is the name of ${sort} already`,
    detail,
    help: 'Give one of them another name.',
    related: [{ place: other.place, message: `${name(other.id)} is declared here first` }],
  };
}
