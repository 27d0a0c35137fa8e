import type { Finding } from '../base/finding.ts';
import { locate, locateEdit, type Project, type Replacement, type Stretch } from './project.ts';

/** A change that is offered at a place. */
export interface CodeAction {
  readonly title: string;
  readonly edits: readonly Replacement[];
  readonly isPreferred: boolean;
  /** The finding that it takes away. */
  readonly finding: Finding;
}

/** The fixes of every finding that the stretch touches, those that are certainly meant first. */
export function codeActions(
  project: Project,
  uri: string,
  findings: readonly Finding[],
  within: Stretch,
): CodeAction[] {
  return findings
    .filter(({ place }) => {
      const where = place.uri === uri ? locate(project, place) : undefined;
      return where && where.start <= within.end && within.start <= where.end;
    })
    .flatMap(finding =>
      (finding.fixes ?? []).map(fix => ({
        title: fix.title,
        edits: fix.edits.flatMap(edit => locateEdit(project, edit) ?? []),
        isPreferred: fix.preferred === true,
        finding,
      })),
    )
    .sort((a, b) => Number(b.isPreferred) - Number(a.isPreferred));
}

/** Every fix of the file that is certainly meant, made at once; where two would touch one place only the first. */
export function fixAll(project: Project, uri: string, findings: readonly Finding[]): Replacement[] {
  const chosen: Replacement[] = [];
  const isFree = (edit: Replacement) =>
    edit.uri === uri && chosen.every(other => edit.end < other.start || other.end < edit.start);
  for (const finding of findings) {
    const fix = finding.fixes?.find(one => one.preferred);
    const edits = fix?.edits.flatMap(edit => locateEdit(project, edit) ?? []) ?? [];
    if (edits.every(isFree)) chosen.push(...edits);
  }
  return chosen.sort((a, b) => a.start - b.start);
}
