import { Workspace } from '../../analysis/workspace.ts';
import type { CounterWalk } from '../../base/finding.ts';
import { type Diagnostic, diagnostics } from '../../features/diagnostics.ts';
import { type Coverage, coverageOf } from '../../proof/coverage.ts';
import { checkProof, type Levels } from '../../rules/run.ts';

/** A procedure to be proved, with the texts that have changed since the last one. Plain data, as it goes to another thread. */
export interface Job {
  readonly id: number;
  readonly uri: string;
  /** Null for a file that is gone, or was never there. */
  readonly changes: readonly (readonly [uri: string, text: string | null])[];
  readonly levels: Levels;
}

export interface Proved {
  readonly diagnostics: readonly ProvedDiagnostic[];
  readonly coverage: readonly Coverage[];
}

export interface ProvedDiagnostic extends Diagnostic {
  /** A walk that the preview can step through. */
  readonly walk?: CounterWalk;
}

/** Does jobs one after another, on a workspace of its own. */
export class ProofWork {
  readonly #workspace = new Workspace();

  /** Undefined where there is no procedure of that name, or the question was taken back. */
  do({ uri, changes, levels }: Job, cancelled: () => boolean): Proved | undefined {
    for (const [file, text] of changes) {
      if (text === null) {
        this.#workspace.delete(file);
        this.#workspace.absent(file);
      } else this.#workspace.set(file, text);
    }
    const view = this.#workspace.view(uri);
    if (view?.kind !== 'procedure') return undefined;
    const found = checkProof(view, levels, cancelled);
    if (!found) return undefined;
    const { findings, proof } = found;
    return {
      // One at a time, so that each is known with the walk that shows it.
      diagnostics: findings.flatMap(finding =>
        diagnostics(this.#workspace, uri, [finding]).map(shown => ({ ...shown, walk: finding.walk })),
      ),
      coverage: coverageOf(proof),
    };
  }
}
