import type { ProcedureView } from '../../analysis/view.ts';
import { existsIn, type Place, type Ref, STANDARD } from '../../model/common.ts';
import { type Ending, type EndingData, endingIn, type Procedure } from '../../model/procedure.ts';
import { type Step, type StepData, stepIn } from '../../model/step.ts';

/** Where the steps of a procedure lead in one variant. A node is the name of a step or an ending. */
export interface StepGraph {
  readonly variant: string;
  readonly procedure: Procedure;
  /** Steps and endings that exist in this variant. */
  readonly steps: ReadonlyMap<string, Step>;
  readonly endings: ReadonlyMap<string, Ending>;
  /** Steps where a walk can begin. */
  readonly starts: readonly string[];
  /** Steps and endings behind a node that exist in this variant; a repair leads on to the step that confirms it. */
  next(node: string): readonly string[];
  /** True where the node leads somewhere that is not written, not known or not in this variant: another rule says so. */
  isOpen(node: string): boolean;
  step(name: string): StepData | undefined;
  ending(name: string): EndingData | undefined;
}

/** One graph for each variant that the procedure applies to; `standard` stands in while no system can be read. */
export function stepGraphs(view: ProcedureView): readonly StepGraph[] {
  const { procedure } = view;
  const names = variantsOf(view);
  const key = names.join('\n');
  const known = cache.get(procedure);
  if (known?.key === key) return known.graphs;
  const graphs = names.map(variant => stepGraph(procedure, variant));
  cache.set(procedure, { key, graphs });
  return graphs;
}

/** Either as a whole, or for each symptom and code by itself. */
export function saysWhereItStarts({ start, entries }: Procedure): boolean {
  return start !== undefined || (entries.length > 0 && entries.every(entry => entry.start !== undefined));
}

export function variantsOf(view: ProcedureView): readonly string[] {
  const names = [...new Set(view.cases.map(c => c.variant))];
  return names.length > 0 ? names : [STANDARD];
}

const cache = new WeakMap<Procedure, { key: string; graphs: readonly StepGraph[] }>();

function stepGraph(procedure: Procedure, variant: string): StepGraph {
  const steps = new Map([...procedure.steps].filter(([, step]) => existsIn(step, variant)));
  const endings = new Map([...procedure.endings].filter(([, ending]) => existsIn(ending, variant)));
  const exists = (name: string) => steps.has(name) || endings.has(name);
  const step = (name: string) => {
    const found = steps.get(name);
    return found && stepIn(found, variant);
  };
  const ending = (name: string) => {
    const found = endings.get(name);
    return found && endingIn(found, variant);
  };
  const targets = new Map<string, readonly string[]>();
  const open = new Set<string>();
  for (const name of steps.keys()) {
    const written = step(name)!.branches.map(b => b.target?.text);
    targets.set(name, [...new Set(written.filter(t => t !== undefined && exists(t)) as string[])]);
    if (written.length === 0 || !written.every(t => t !== undefined && exists(t))) open.add(name);
  }
  for (const name of endings.keys()) {
    const confirm = ending(name)!.confirm?.text;
    if (confirm === undefined || targets.has(name)) continue;
    targets.set(name, steps.has(confirm) ? [confirm] : []);
    if (!steps.has(confirm)) open.add(name);
  }
  return {
    variant,
    procedure,
    steps,
    endings,
    starts: startRefs(procedure)
      .map(r => r.text)
      .filter(name => steps.has(name)),
    next: node => targets.get(node) ?? [],
    isOpen: node => open.has(node),
    step,
    ending,
  };
}

/** `start` of the procedure and of each way in. */
export function startRefs(procedure: Procedure): readonly Ref[] {
  return [procedure.start, ...procedure.entries.map(e => e.start)].filter(ref => ref !== undefined);
}

/** The token of a name where it is declared. */
export function placeOf(procedure: Procedure, name: string): Place | undefined {
  return (procedure.steps.get(name) ?? procedure.endings.get(name))?.place;
}
