import type { SystemView } from '../analysis/view.ts';
import { checkWithoutProof } from '../rules/run.ts';
import { findFiles } from './find-files.ts';
import type { Host } from './host.ts';
import { openProject } from './project.ts';
import { unknown, WrongUse } from './wrong-use.ts';

/** The one system file that a command is about. Errors in it are said on the error stream, as `what` is then doubtful. */
export async function systemAt(file: string, host: Host, what: string): Promise<SystemView> {
  const project = await openProject(host.folder, await findFiles(host.folder, [file]));
  const [uri] = project.named;
  const view = project.view(uri!);
  if (view.kind !== 'system' || project.named.length > 1) {
    throw new WrongUse(`\`${file}\` is not one system file`, 'name a file that ends in `.system.yaml`');
  }
  const errors = checkWithoutProof(view).filter(finding => finding.severity === 'error').length;
  if (errors > 0) {
    const many = errors === 1 ? 'There is an error' : `There are ${errors} errors`;
    host.err(`${many} in \`${file}\`, so ${what} may be wrong; \`faultwalk check\` tells more\n`);
  }
  return view;
}

/** The variant that was named, else all. Throws `WrongUse` for one that the system does not have. */
export function variantsOf({ system }: SystemView, variant: string | undefined, file: string): readonly string[] {
  if (variant === undefined) return system.variants;
  if (system.variants.includes(variant)) return [variant];
  throw unknown('variant', variant, system.variants, `\`${file}\``);
}
