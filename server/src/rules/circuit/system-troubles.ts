import type { Trouble } from '../../analysis/electrical.ts';
import { type Situation, situation } from '../../analysis/situation.ts';
import type { SystemView } from '../../analysis/view.ts';
import { situationInWords } from '../../analysis/words/situation.ts';
import type { Finding } from '../../base/finding.ts';
import { formatQuantity } from '../../base/quantity/format.ts';
import type { Declared } from '../../model/common.ts';
import { ownStates, partIn } from '../../model/parts.ts';
import type { Rule } from '../rule.ts';
import { inVariants, joined, named } from '../wording.ts';

const head = `format: 1
system: lamp
conditions:
  key: [off, run]
parts:
  G1: { kind: battery, voltage: 12.6 V ± 0.4 V, internal resistance: 10 mΩ }
  S1: { kind: switch, closed: { key: run } }
  E1: { kind: resistor, resistance: 10 Ω ± 5 % }
grounds:
  GND-1: { title: Frame }
`;

const good = `#- /lamp.system.yaml
${head}wires:
  - W1: G1.+ to S1.1, red
  - W2: S1.2 to E1.1, yellow
  - W3: E1.2 to GND-1, black
  - W4: G1.- to GND-1, black
`;

export const supplyShorted: Rule = {
  id: 'supply-shorted',
  severity: 'error',
  group: 'circuit',
  on: 'system',
  title: 'A supply whose two terminals are wired together',
  explanation: `
Under some condition a current flows from one terminal of this supply to the other through nothing but wires, closed contacts and fuses. A real
machine would blow a fuse; where these have no resistance at all, nothing can be computed. Mostly a wire ends at the wrong terminal.`,
  bad: `#- /lamp.system.yaml
${head.replace(', internal resistance: 10 mΩ', '').replace('  G1:', '  G1:')}wires:
  - W1: G1.+ to S1.1, red
  - W2: S1.2 to E1.1, yellow
  - W3: E1.2 to GND-1, black
  - W4: G1.- to GND-1, black
  - W5: S1.2 to GND-1, black
`.replace('  S1: {', '# ^^ error supply-shorted: Both terminals of `G1` are one point\n  S1: {'),
  good,
  check: view => troubles(view, 'supply shorted', 'supply-shorted', supplyWords),
};

export const suppliesTiedTogether: Rule = {
  id: 'supplies-tied-together',
  severity: 'error',
  group: 'circuit',
  on: 'system',
  title: 'Supplies of fixed voltage joined in a ring',
  explanation: `
Two or more supplies without internal resistance are joined so that their voltages would have to be equal to the last digit. Nothing limits the
current between them, and nothing can be computed. Give them their \`internal resistance\`, or the wires between them their size and length.`,
  bad: `#- /lamp.system.yaml
${head
  .replace(', internal resistance: 10 mΩ', '')
  .replace(
    '  S1: {',
    '# ^^ error supplies-tied-together: `G1` and `G2` are tied together with nothing between them\n  G2: { kind: battery, voltage: 13 V }\n  S1: {',
  )}wires:
  - W1: G1.+ to S1.1, red
  - W2: S1.2 to E1.1, yellow
  - W3: E1.2 to GND-1, black
  - W4: G1.- to GND-1, black
  - W5: G2.+ to G1.+, red
  - W6: G2.- to GND-1, black
`,
  good,
  check: view => troubles(view, 'supplies tied together', 'supplies-tied-together', ringWords),
};

interface Words {
  message: string;
  /** Said before under which condition it is so. */
  why?: string;
  help: string;
}

function supplyWords(names: readonly string[], { through = [], amps }: Trouble, view: SystemView): Words {
  if (names.length > 1) {
    return {
      message: `${named(names)} short each other`,
      why: 'The plus of each is wired to the minus of the other.',
      help: 'Swap the wires of one of them.',
    };
  }
  const help = 'Correct the wire that joins them, or put the load between them that is missing.';
  if (through.length === 0 || amps === undefined) {
    return { message: `Both terminals of ${named(names)} are one point`, help };
  }
  const owners = [...new Set(through.map(id => ownerOf(id, view).id))];
  return {
    message: `${named(names)} is shorted through ${named(owners, 3)}`,
    why: `Nothing else lies between its terminals, and ${formatQuantity(amps, 'current', { digits: 2 })} would flow.`,
    help,
  };
}

function ringWords(names: readonly string[], trouble: Trouble): Words {
  return {
    message: `${named(names)} are tied together with nothing between them`,
    why: `Involved are ${joined([...trouble.names])}.`,
    help: 'Give the supplies their `internal resistance`, or correct the wire that joins them.',
  };
}

/** Troubles at rest and in every situation in which one thing is not at rest. */
function* troubles(
  view: SystemView,
  kind: Trouble['kind'],
  rule: string,
  words: (names: readonly string[], trouble: Trouble, view: SystemView) => Words,
): Generator<Finding> {
  const { system } = view;
  const told = new Set<string>();
  for (const variant of system.variants) {
    const circuit = view.circuit(variant);
    for (const now of nearRest(view, variant, circuit.rest)) {
      for (const trouble of circuit.troubles(now)) {
        const names = [...new Set(trouble.names.map(id => ownerOf(id, view).id))];
        const key = names.join(' ');
        if (trouble.kind !== kind || told.has(key)) continue;
        told.add(key);
        const { place } = ownerOf(trouble.names[0] ?? '', view);
        if (!place) continue;
        const when = situationInWords(now, circuit.rest) || 'everything at rest';
        const { message, why, help } = words(names, trouble, view);
        yield {
          rule,
          place,
          message,
          help,
          detail: [why, `So it is with ${when}${inVariants([variant], system.variants)}.`].filter(Boolean).join(' '),
        };
      }
    }
  }
}

function* nearRest(view: SystemView, variant: string, rest: Situation): Generator<Situation> {
  yield rest;
  const { conditions, parts } = view.system;
  const ways: [string, readonly string[]][] = [
    ...[...conditions.values()].map((c): [string, string[]] => [c.id, c.states.map(s => s.text)]),
    ...[...parts.values()].map((p): [string, readonly string[]] => [p.id, ownStates(partIn(p, variant))]),
  ];
  for (const [name, states] of ways) {
    for (const state of states.slice(1)) {
      if (rest.states.has(name)) yield situation(new Map([...rest.states, [name, state]]), rest.apart);
    }
  }
}

/** The part, wire, connector or ground that an element of the network belongs to. */
function ownerOf(id: string, { system }: SystemView): Pick<Declared, 'id'> & Partial<Declared> {
  const { parts, wires, connectors, grounds } = system;
  const named: readonly Declared[] = [...parts.values(), ...wires, ...connectors.values(), ...grounds.values()];
  const owners = named.filter(d => id === d.id || (id.startsWith(d.id) && ' ./'.includes(id.charAt(d.id.length))));
  return owners.sort((a, b) => b.id.length - a.id.length)[0] ?? { id };
}
