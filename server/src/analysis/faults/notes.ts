import type { Declared } from '../../model/common.ts';
import type { FaultNote } from '../../model/system.ts';
import type { Wiring } from '../lower/wiring.ts';
import { addedFault } from './added.ts';
import type { Derived, Extent, Fault } from './fault.ts';
import { faultsNamed } from './names.ts';
import { rounded } from './weights.ts';

/**
 * The derived list with what the file says of it. What is known of several faults together is shared by them, and an edit of fewer
 * faults goes before one of more.
 */
export function withNotes(derived: readonly Derived[], wiring: Wiring): readonly Fault[] {
  const { faultNotes } = wiring.system;
  const added = faultNotes.flatMap(note =>
    note.added === undefined || faultsNamed(derived, note.id).length > 0 ? [] : (addedFault(note, wiring) ?? []),
  );
  const list = [...derived, ...added];
  const edits = faultNotes
    .map(note => ({ note, meant: faultsNamed(list, note.id) }))
    .sort((a, b) => b.meant.length - a.meant.length);
  const noted = new Map<string, Edit>();
  for (const { note, meant } of edits) {
    const whole = meant.reduce((sum, fault) => sum + fault.likelihood, 0);
    for (const { id, likelihood } of meant) noted.set(id, merged(noted.get(id), note, likelihood / whole));
  }
  return list.map(fault => asFault(fault, noted.get(fault.id) ?? nothing));
}

/** What the edits of one fault say together. */
type Edit = Omit<FaultNote, keyof Declared> & {
  /** The part of the stated likelihood that this fault has of those that it was stated for. */
  readonly share?: number;
};

const nothing: Edit = {};

function merged(before: Edit | undefined, note: FaultNote, share: number): Edit {
  const { likelihood, severity, excluded, added, ohms, ratio, volts } = note;
  const own: Edit = { likelihood, severity, excluded, added, ohms, ratio, volts };
  const said = Object.entries(own).filter(([, value]) => value !== undefined);
  return { ...before, ...Object.fromEntries(said), ...(likelihood !== undefined && { share }) };
}

function asFault(fault: Derived, edit: Edit): Fault {
  const { givesVolts, ...derived } = fault;
  const extent = statedExtent(edit, fault) ?? fault.extent;
  const { likelihood, share = 1, severity = 1, excluded, added } = edit;
  return {
    ...derived,
    ...(likelihood !== undefined && {
      likelihood: rounded(likelihood * share),
      likelihoodSource: share < 1 ? 'this file, shared' : 'this file',
    }),
    severity,
    extent,
    ...(excluded !== undefined && { excluded }),
    ...(added !== undefined && { added }),
    changes: fault.changes(extent),
  };
}

/** What the file says in the dimension of the fault; a source may be told its voltage as well as a part of it. */
function statedExtent({ ohms, ratio, volts }: Edit, { extent, givesVolts }: Derived): Extent | undefined {
  const source = 'this file';
  if (extent?.dimension === 'resistance') return ohms === undefined ? undefined : { ...extent, value: ohms, source };
  if (extent === undefined) return undefined;
  if (ratio !== undefined) return { ...extent, value: ratio, source };
  return givesVolts && volts !== undefined ? { dimension: 'voltage', value: volts, source } : undefined;
}
