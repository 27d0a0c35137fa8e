import type { ProcedureView } from '../../../server/src/analysis/view.ts';
import type { Workspace } from '../../../server/src/analysis/workspace.ts';
import { proofOf } from '../../../server/src/rules/proof/proved.ts';
import { checkFile } from '../../../server/src/rules/run.ts';
import { type Alike, howAlike } from './alike.ts';
import { type Mutant, mutantsOf } from './mutate.ts';

export interface Tried extends Mutant {
  /** The rules of what is found in the mutant and not in the procedure; empty: it survives. */
  readonly by: readonly string[];
  /** Of one that survives. */
  readonly alike?: Alike;
}

/** Puts the mutants of a procedure in its place, one after the other. `wanted` picks some of them. */
export function tryMutants(
  workspace: Workspace,
  uri: string,
  wanted: (mutant: Mutant, i: number) => boolean = () => true,
): readonly Tried[] {
  const view = workspace.view(uri) as ProcedureView;
  const { text } = view.tree;
  const before = new Set(found(workspace, uri).map(({ message }) => message));
  const tried = mutantsOf(view)
    .filter(wanted)
    .map(mutant => {
      workspace.set(uri, mutant.text);
      const fresh = found(workspace, uri).filter(({ message }) => !before.has(message));
      const by = [...new Set(fresh.map(({ rule }) => rule))];
      if (by.length > 0) return { ...mutant, by };
      return { ...mutant, by, alike: howAlike(proofOf(view), proofOf(workspace.view(uri) as ProcedureView)) };
    });
  workspace.set(uri, text);
  return tried;
}

function found(workspace: Workspace, uri: string) {
  return checkFile(workspace.view(uri)!);
}

/** `branches swapped: 11 of 12`, how good the survivors are, and each of them. */
export function inWords(name: string, tried: readonly Tried[]): string {
  const kinds = [...new Set(tried.map(({ kind }) => kind))];
  const share = (some: readonly Tried[]) => `${some.filter(({ by }) => by.length > 0).length} of ${some.length}`;
  const lines = kinds.map(kind => `  ${kind}: ${share(tried.filter(one => one.kind === kind))}`);
  const survivors = tried.filter(({ by }) => by.length === 0);
  const counts = [...new Set(survivors.map(({ alike }) => alike))].map(
    alike => `  survivors, ${alike}: ${survivors.filter(one => one.alike === alike).length}`,
  );
  const left = survivors.map(({ kind, what, alike }) => `    survives, ${kind}, ${alike}: ${what}`);
  return [`${name}: ${share(tried)} mutants are found`, ...lines, ...counts, ...left].join('\n');
}
