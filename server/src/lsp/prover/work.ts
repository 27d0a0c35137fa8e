import type { FileView } from '../../analysis/view.ts';
import { Workspace } from '../../analysis/workspace.ts';
import type { CounterWalk } from '../../base/finding.ts';
import { type Diagnostic, diagnostics } from '../../features/diagnostics.ts';
import type { Complaint } from '../../planning/draft/complaint.ts';
import { type Tried, tryDraft } from '../../planning/draft/try-draft.ts';
import { type Next, nextAt } from '../../planning/next.ts';
import { type Coverage, coverageOf } from '../../proof/coverage.ts';
import { prove } from '../../proof/prove.ts';
import { checkProof, type Levels } from '../../rules/run.ts';

/** What takes so long that it is not done where the server answers, by kind. All of it is plain data, as it goes to another thread. */
export interface Tasks {
  readonly proof: { readonly levels: Levels };
  /** Of a system, named `file` in the text. */
  readonly draft: { readonly complaint: Complaint; readonly variant: string; readonly file: string };
  readonly next: { readonly step: string; readonly variant: string };
}

export interface Results {
  readonly proof: Proved;
  readonly draft: Tried;
  readonly next: Next;
}

export type Kind = keyof Tasks;

/** A task about one file, with the texts that have changed since the last one. */
export type Job<K extends Kind = Kind> = {
  readonly [P in K]: {
    readonly kind: P;
    readonly id: number;
    readonly uri: string;
    /** Null for a file that is gone, or was never there. */
    readonly changes: readonly (readonly [uri: string, text: string | null])[];
    readonly task: Tasks[P];
  };
}[K];

export interface Proved {
  readonly diagnostics: readonly ProvedDiagnostic[];
  readonly coverage: readonly Coverage[];
}

export interface ProvedDiagnostic extends Diagnostic {
  /** A walk that the preview can step through. */
  readonly walk?: CounterWalk;
}

/** Does jobs one after another, on a workspace of its own. */
export class Work {
  readonly #workspace = new Workspace();

  /** Undefined where there is no file that the task could be about, or it was taken back. The texts are taken over even so: they are sent once. */
  do(job: Job, cancelled: () => boolean): Results[Kind] | undefined {
    for (const [file, text] of job.changes) {
      if (text === null) {
        this.#workspace.delete(file);
        this.#workspace.absent(file);
      } else this.#workspace.set(file, text);
    }
    if (cancelled()) return undefined;
    const view = this.#workspace.view(job.uri);
    const result = view && this.#result(job, view, cancelled);
    return cancelled() ? undefined : result;
  }

  #result(job: Job, view: FileView, cancelled: () => boolean): Results[Kind] | undefined {
    switch (job.kind) {
      case 'proof':
        return this.#prove(job.task, view, cancelled);
      case 'draft':
        return draftOf(job.task, view, cancelled);
      case 'next':
        return nextOf(job.task, view, cancelled);
    }
  }

  #prove({ levels }: Tasks['proof'], view: FileView, cancelled: () => boolean): Proved | undefined {
    const found = view.kind === 'procedure' ? checkProof(view, levels, cancelled) : undefined;
    if (!found) return undefined;
    const { findings, proof } = found;
    return {
      // One at a time, so that each is known with the walk that shows it.
      diagnostics: findings.flatMap(finding =>
        diagnostics(this.#workspace, view.uri, [finding]).map(shown => ({ ...shown, walk: finding.walk })),
      ),
      coverage: coverageOf(proof),
    };
  }
}

function draftOf({ complaint, variant, file }: Tasks['draft'], view: FileView, cancelled: () => boolean) {
  if (view.kind !== 'system' || !view.system.variants.includes(variant)) return undefined;
  const bench = { system: view.system, variant, circuit: view.circuit(variant) };
  return tryDraft(complaint, bench, file, { cancelled });
}

function nextOf({ step, variant }: Tasks['next'], view: FileView, cancelled: () => boolean) {
  const one = view.kind === 'procedure' ? view.cases.find(one => one.variant === variant) : undefined;
  if (view.kind !== 'procedure' || !one) return undefined;
  const proof = prove(view, { cancelled });
  return proof.isCancelled ? undefined : nextAt(view, one, step, proof, cancelled);
}
