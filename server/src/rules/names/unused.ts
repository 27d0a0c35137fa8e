import type { SystemView } from '../../analysis/view.ts';
import type { Declared } from '../../model/common.ts';
import type { Finding, Rule } from '../rule.ts';
import { name } from '../wording.ts';
import { type Used, usedNames } from './used.ts';

/** One sort of thing that a system declares and nothing names. */
interface Sort {
  readonly id: string;
  /** As it stands in a sentence: `part`. */
  readonly noun: string;
  readonly explanation: string;
  /** A system with `unused` things of this sort marked, and one without. */
  readonly bad: string;
  readonly good: string;
  readonly unused: (view: SystemView, used: Used, usedBy: SystemView['usedBy']) => Iterable<Unused>;
  /** Where the usual title does not say it. */
  readonly title?: string;
  /** The variants that the procedure of the examples applies to. */
  readonly appliesTo?: string;
}

interface Unused {
  readonly id: string;
  readonly place: Declared['place'];
  readonly detail: string;
  /** Where one rule is about two sorts of thing. */
  readonly noun?: string;
  /** Where the usual sentence does not say it. */
  readonly message?: string;
}

/** What is used changes with the procedures, while the view of the system stays the same. */
function usedIn(view: SystemView, usedBy: SystemView['usedBy']): Used {
  const before = memory.get(view);
  if (before?.usedBy.length === usedBy.length && usedBy.every((p, i) => p === before.usedBy[i])) return before.used;
  const used = usedNames(view.system, usedBy);
  memory.set(view, { usedBy, used });
  return used;
}

const memory = new WeakMap<SystemView, { usedBy: SystemView['usedBy']; used: Used }>();

/**
 * Only said of a system that some procedure applies to: before that everything is unused, and so is what stands in a file that
 * other systems include.
 */
export function unusedRule({ id, noun, explanation, bad, good, unused, title, appliesTo }: Sort): Rule {
  return {
    id,
    severity: 'hint',
    group: 'names',
    on: 'system',
    needsWholeFile: true,
    title: title ?? `A ${noun} that nothing names`,
    explanation,
    bad: withProcedure(bad, appliesTo),
    good: withProcedure(good, appliesTo),
    *check(view) {
      const { usedBy } = view;
      if (usedBy.length === 0 || usedBy.some(p => p.tree.problems.length > 0)) return;
      const used = usedIn(view, usedBy);
      for (const found of unused(view, used, usedBy))
        if (found.place.uri === view.uri) yield finding(id, found.noun ?? noun, found);
    },
  };
}

function finding(rule: string, noun: string, { id, place, detail, message }: Unused): Finding {
  return {
    rule,
    place,
    message: message ?? `Nothing names the ${noun} ${name(id)}`,
    detail,
    help: 'Delete it, or allow it with the reason.',
  };
}

/** The system of the example, with a procedure that looks at its lamp. */
function withProcedure(system: string, variants = 'all'): string {
  return `#- /lamp-small.system.yaml
${system.replace(/^\n/, '')}#- /lamp-dark.procedure.yaml
format: 1
procedure: lamp-dark
applies to: { lamp-small.system.yaml: ${variants} }
starts from: [{ symptom: lamp stays dark }]
start: look
steps:
  look: { set: { key: run }, inspect: [E1], then: { damage found: ask-the-maker, all sound: not-found } }
endings:
  ask-the-maker: { refer: Ask the maker }
  not-found: { no fault: The lamp is bright }
`;
}

/** The rest of the small system; what an example adds stands behind it. */
export const smallSystem = `
format: 1
system: lamp-small
parts:
  G1: { kind: battery, voltage: 12.6 V ± 0.4 V, internal resistance: 10 mΩ }
  S1: { kind: switch, closed: { key: run } }
  E1: { kind: resistor, resistance: 10 Ω ± 5 % }`;

export const smallWires = `
wires:
  - W1: G1.+ to S1.1, 1.5 mm², 1 m
  - W2: S1.2 to E1.1, 1.5 mm², 1 m`;
