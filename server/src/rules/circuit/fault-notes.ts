import { derive } from '../../analysis/faults/derive.ts';
import type { Derived } from '../../analysis/faults/fault.ts';
import { faultsNamed } from '../../analysis/faults/names.ts';
import { wire } from '../../analysis/lower/wiring.ts';
import type { SystemView } from '../../analysis/view.ts';
import type { Place } from '../../base/place.ts';
import { Fields } from '../../model/reader.ts';
import type { FaultNote } from '../../model/system.ts';

/** The edits of the fault list that stand in this file, each with the derived faults that it means in any variant. */
export function notesOf({ system, uri }: SystemView): readonly { note: FaultNote; derived: readonly Derived[] }[] {
  const own = system.faultNotes.filter(note => note.place.uri === uri);
  if (own.length === 0) return [];
  const all = system.variants.flatMap(variant =>
    derive(wire(system, variant)).map(fault => ({ ...fault, mendedBy: fault.mendedBy ?? [fault.owner] })),
  );
  return own.map(note => ({ note, derived: faultsNamed(all, note.id) }));
}

/** The token of a key of the entry, and of its value. */
export function partsOf({ entry, place }: FaultNote, key: string): { key: Place; value: Place } | undefined {
  const found = new Fields(entry.value).entry(key);
  return found && { key: { ...place, span: found.key.span }, value: { ...place, span: found.value.span } };
}
