import type { ProcedureView } from '../../server/src/analysis/view.ts';
import { Workspace } from '../../server/src/analysis/workspace.ts';
import { prove } from '../../server/src/proof/prove.ts';
import { rigProcedure, rigSystem } from './rig.ts';

export interface ProofRow {
  readonly circuits: number;
  readonly variants: number;
  readonly steps: number;
  readonly faults: number;
  readonly walks: number;
  readonly coldMs: number;
  /** After an edit of the limits of one step: only what comes by it is walked again. */
  readonly editMs: number;
}

/** Proofs of an invented rig that grows in faults, steps and variants, each in a workspace of its own, after a warm-up. */
export function proofs(): ProofRow[] {
  run(2, 1, 6);
  const sizes = [
    [4, 1, 10],
    [8, 1, 10],
    [8, 1, 25],
    [8, 2, 25],
    [8, 4, 25],
  ] as const;
  return sizes.map(([circuits, variants, steps]) => run(circuits, variants, steps));
}

/** `steps` is for each circuit. */
function run(circuits: number, variants: number, steps: number): ProofRow {
  const workspace = new Workspace();
  const text = rigProcedure(circuits, steps);
  workspace.set('bench:/rig.system.yaml', rigSystem(circuits, variants));
  workspace.set('bench:/rig.procedure.yaml', text);
  const view = () => workspace.view('bench:/rig.procedure.yaml') as ProcedureView;
  const timed = () => {
    const now = view();
    const before = performance.now();
    const proof = prove(now);
    return { proof, ms: performance.now() - before };
  };
  const { proof, ms: coldMs } = timed();
  workspace.set('bench:/rig.procedure.yaml', text.replace('limits: at least 10 V', 'limits: at least 10.1 V'));
  const { ms: editMs } = timed();
  const walked = proof.walks.filter(({ fault }) => fault);
  return {
    circuits,
    variants,
    steps: view().procedure.steps.size,
    faults: new Set([...walked, ...proof.elsewhere].map(({ fault }) => fault!.id)).size,
    walks: walked.length,
    coldMs,
    editMs,
  };
}
