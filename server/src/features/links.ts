import { URI, Utils } from 'vscode-uri';
import type { FileView } from '../analysis/view.ts';
import type { Ref } from '../base/place.ts';
import { pieceOf } from './names/thing.ts';
import type { Stretch } from './project.ts';

/** A file named in another one. */
export interface FileLink extends Stretch {
  readonly target: string;
}

/** Included files, systems that a procedure applies to, procedures that go on, the procedure of a file of samples. */
export function documentLinks(view: FileView): FileLink[] {
  return filesIn(view)
    .filter(ref => ref.place.uri === view.uri && ref.text !== '')
    .map(ref => ({ ...view.tree.absolute(pieceOf(ref).span), target: besides(view.uri, ref.text) }));
}

function filesIn(view: FileView): Ref[] {
  if (view.kind === 'system') return [...view.system.includes];
  if (view.kind === 'samples') return view.samples.of ? [view.samples.of] : [];
  if (view.kind !== 'procedure') return [];
  const { appliesTo, endings } = view.procedure;
  const goesOn = [...endings.values()].flatMap(({ data, byVariant }) => [data, ...byVariant.values()]);
  return [...appliesTo.map(({ file }) => file), ...goesOn.flatMap(({ file }) => (file ? [file] : []))];
}

/** The address of a file that is named as seen from another one. */
export function besides(uri: string, name: string): string {
  return Utils.resolvePath(Utils.dirname(URI.parse(uri)), name).toString();
}
