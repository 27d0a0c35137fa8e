import type { Workspace } from '../../server/src/analysis/workspace.ts';
import { type Report, reportedFile } from '../../server/src/publish/report.ts';
import { ruleById } from '../../server/src/rules/index.ts';
import { checkFile, checkWithoutProof } from '../../server/src/rules/run.ts';
import { uriOf } from '../support/fixture.ts';
import { workspaceOf } from '../support/workspace.ts';
import { type BrokenCopy, brokenCopy } from './build.ts';
import { breakages } from './edits.ts';
import { readme } from './readme.ts';

export interface Exhibit extends BrokenCopy {
  /** Everything that is found in the files of the copy; what follows from walking every fault only where that is what it shows. */
  readonly report: Report;
}

/** Every broken copy with what is found in it; `examples` gives the text of each clean example by its path. */
export function exhibits(examples: ReadonlyMap<string, string>): readonly Exhibit[] {
  const copies = breakages.map(breakage => brokenCopy(breakage, examples));
  const files = [...examples, ...copies.flatMap(copy => [...copy.files])];
  const workspace = workspaceOf(files.map(([path, text]) => [uriOf(`/${path}`), text] as const));
  return copies.map(copy => ({ ...copy, report: reportOn(workspace, copy) }));
}

/** Everything in `examples/broken`, by its path below the folder of examples. */
export function filesOf(exhibits: readonly Exhibit[]): ReadonlyMap<string, string> {
  return new Map([['broken/README.md', readme(exhibits)], ...exhibits.flatMap(({ files }) => [...files])]);
}

function reportOn(workspace: Workspace, { breakage, files }: BrokenCopy): Report {
  // Whatever is broken may also change where faults end. That is another story, and takes long to tell.
  const check = ruleById.get(breakage.rule)?.group === 'proof' ? checkFile : checkWithoutProof;
  const named = {
    view: (uri: string) => workspace.view(uri),
    path: (uri: string) => uri.replace(/^file:\/\/\/(broken\/)?/, ''),
  };
  return {
    files: [...files.keys()].map(path => {
      const view = workspace.view(uriOf(`/${path}`))!;
      return reportedFile(view, check(view), named);
    }),
  };
}
