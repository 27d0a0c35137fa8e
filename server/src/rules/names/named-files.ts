import type { FileView } from '../../analysis/view.ts';
import type { Ref } from '../../base/place.ts';
import type { FileKind } from '../../schema/root.ts';
import { dataOf } from '../step-data.ts';

/** A place where a file names another one, with the kind that it must be of. */
export interface NamedFile {
  readonly ref: Ref;
  readonly kind: FileKind;
}

export function namedFiles(view: FileView): readonly NamedFile[] {
  const as = (kind: FileKind) => (ref: Ref) => ({ ref, kind });
  switch (view.kind) {
    case 'system':
      return view.system.includes.map(as('system'));
    case 'procedure': {
      const { appliesTo, endings } = view.procedure;
      const onward = [...endings.values()].flatMap(e => dataOf(e).flatMap(data => data.file ?? []));
      return [...appliesTo.map(a => a.file).map(as('system')), ...onward.map(as('procedure'))];
    }
    case 'samples':
      return view.samples.of ? [{ ref: view.samples.of, kind: 'procedure' }] : [];
    case 'other':
      return [];
  }
}
