import { resolveFile } from '../analysis/resolve.ts';
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
    .flatMap(ref => {
      const target = resolveFile(view.uri, ref.text);
      return target === undefined ? [] : [{ ...view.tree.absolute(pieceOf(ref).span), target }];
    });
}

function filesIn(view: FileView): Ref[] {
  if (view.kind === 'system') return [...view.system.includes];
  if (view.kind === 'samples') return view.samples.of ? [view.samples.of] : [];
  if (view.kind !== 'procedure') return [];
  const { appliesTo, endings } = view.procedure;
  const goesOn = [...endings.values()].flatMap(({ data, byVariant }) => [data, ...byVariant.values()]);
  return [...appliesTo.map(({ file }) => file), ...goesOn.flatMap(({ file }) => (file ? [file] : []))];
}
