import { faultsOf } from '../../server/src/analysis/faults/derive.ts';
import type { Situation } from '../../server/src/analysis/situation.ts';
import type { ProcedureView } from '../../server/src/analysis/view.ts';
import type { Nature } from '../../server/src/model/procedure.ts';
import type { StepData } from '../../server/src/model/step.ts';
import type { Outcomes } from '../../server/src/proof/outcome.ts';
import { makePatient, type Patient } from '../../server/src/proof/patient.ts';
import { systemsByName } from '../support/systems.ts';
import { workspaceOf } from '../support/workspace.ts';

/**
 * Two resistors in line behind a switch. Next to nothing is lost elsewhere, so that R2 has 12 V · 100 Ω / 200 Ω = 6 V, at least
 * 11 V · 90 Ω / 200 Ω = 4.95 V and at most 13 V · 110 Ω / 200 Ω = 7.15 V.
 */
export const divider = `format: 1
system: divider
conditions: { key: [off, run] }
parts:
  G1: { kind: supply, voltage: 12 V ± 1 V }
  F1: { kind: breaker, rating: 5 A, resistance: 1 mΩ }
  S1: { kind: switch, closed: { key: run } }
  R1: { kind: resistor, resistance: 100 Ω ± 10 % }
  R2: { kind: resistor, resistance: 100 Ω ± 10 % }
  hose-P1: { kind: item, fails: { chafed: Leaks when warm } }
grounds: { GND-1: { title: Frame } }
wires:
  - W1: G1.+ to F1.1
  - W2: F1.2 to S1.1
  - W3: S1.2 to R1.1
  - W4: R1.2 to R2.1
  - W5: R2.2 to GND-1
  - W6: G1.- to GND-1
`;

/** A procedure for the divider, for one like it, or for a system of `systems.ts`; from its `starts from`, or else from its steps, on. */
export function procedureOn(text: string, like = divider): ProcedureView {
  const named = systemsByName.get(like);
  const [system, written] = named ? [like, named] : ['divider.system.yaml', like];
  const entries = text.includes('starts from:') ? '' : 'starts from: [{ symptom: It does not work }]\n';
  const procedure = `format: 1\nprocedure: some\napplies to: { ${system}: all }\nstart: look\n${entries}${text}`;
  const workspace = workspaceOf([
    [`file:///project/${system}`, written],
    ['file:///project/some.procedure.yaml', procedure],
  ]);
  return workspace.view('file:///project/some.procedure.yaml') as ProcedureView;
}

/** The machine with this fault, or without one. */
export function patientOn(view: ProcedureView, fault?: string, nature: Nature = 'hard'): Patient {
  const [of] = view.cases;
  const { system, variant, circuit } = of!;
  const all = faultsOf(system, variant);
  const found = all.filter(({ id }) => id === fault);
  if (found.length === 0 && fault !== undefined) {
    throw new Error(`no fault ${fault} among ${all.map(({ id }) => id).join(', ')}`);
  }
  return makePatient({ procedure: view.procedure, variant, system, of }, circuit, all, found, nature);
}

export function stepOf(view: ProcedureView, name = 'look'): StepData {
  return view.procedure.steps.get(name)!.data;
}

/** The situation with these states, everything else at rest. */
export function when({ circuit }: Patient, states: Readonly<Record<string, string>> = {}): Situation {
  return circuit.become(circuit.rest, new Map([...circuit.rest.states, ...Object.entries(states)]), new Set());
}

/** `within: 4.85 V, certain` for every outcome, with the branch by its key. */
export function told(outcomes: Outcomes): readonly string[] {
  if (outcomes.kind !== 'leads on') return [`${outcomes.kind}: ${outcomes.why}`];
  return outcomes.outcomes.map(({ branch, text, why }) => `${branch?.key.text ?? 'none'}: ${text}, ${why}`);
}
