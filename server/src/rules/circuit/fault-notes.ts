import { derivedFaults } from '../../analysis/faults/derive.ts';
import type { Derived } from '../../analysis/faults/fault.ts';
import { faultsNamed } from '../../analysis/faults/names.ts';
import type { SystemView } from '../../analysis/view.ts';
import type { Place } from '../../base/place.ts';
import { Fields } from '../../model/reader.ts';
import type { FaultNote } from '../../model/system.ts';

/** The edits of the fault list that stand in this file. */
export function notesOf({ system, uri }: SystemView): readonly FaultNote[] {
  return system.faultNotes.filter(note => note.place.uri === uri);
}

/** The derived faults that an edit means, in any variant. */
export function derivedIn({ system }: SystemView, note: FaultNote): readonly Derived[] {
  return system.variants.flatMap(variant => faultsNamed(derivedFaults(system, variant), note.id));
}

/** The token of a key of the entry, and of its value. */
export function partsOf({ entry, place }: FaultNote, key: string): { key: Place; value: Place } | undefined {
  const found = new Fields(entry.value).entry(key);
  return found && { key: { ...place, span: found.key.span }, value: { ...place, span: found.value.span } };
}
