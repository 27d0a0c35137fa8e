import type { FaultNote } from '../../model/system.ts';
import type { Wiring } from '../lower/wiring.ts';
import { addedFault } from './added.ts';
import type { Derived, Extent, Fault } from './fault.ts';
import { faultsNamed } from './names.ts';
import { rounded } from './weights.ts';

/** The derived list with what the file says of it. What is known of several faults together is shared by them. */
export function withNotes(derived: readonly Derived[], wiring: Wiring): readonly Fault[] {
  const { faultNotes } = wiring.system;
  const all = derived.map(complete);
  const added = faultNotes.flatMap(note =>
    note.added === undefined || faultsNamed(all, note.id).length > 0 ? [] : (addedFault(note, wiring) ?? []),
  );
  const list = [...all, ...added.map(complete)];
  const noted = new Map<string, { note: FaultNote; share: number }>();
  for (const note of faultNotes) {
    const meant = faultsNamed(list, note.id);
    const whole = meant.reduce((sum, f) => sum + f.likelihood, 0);
    for (const fault of meant) noted.set(fault.id, { note, share: fault.likelihood / whole });
  }
  return list.map(fault => {
    const found = noted.get(fault.id);
    return asFault(fault, found?.note, found?.share);
  });
}

type Complete = Derived & Pick<Fault, 'mendedBy'>;

function complete(fault: Derived): Complete {
  return { ...fault, mendedBy: fault.mendedBy ?? [fault.owner] };
}

function asFault(fault: Complete, note: FaultNote | undefined, share = 1): Fault {
  const extent = note ? (statedExtent(note, fault.extent) ?? fault.extent) : fault.extent;
  const { likelihood, likelihoodSource } = fault;
  const stated = note?.likelihood;
  return {
    ...fault,
    likelihood: stated === undefined ? likelihood : rounded(stated * share),
    likelihoodSource: stated === undefined ? likelihoodSource : share < 1 ? 'this file, shared' : 'this file',
    severity: note?.severity ?? 1,
    extent,
    ...(note?.excluded !== undefined && { excluded: note.excluded }),
    ...(note?.added !== undefined && { added: note.added }),
    changes: fault.changes(extent),
  };
}

/** What the file says in the dimension of the fault; a source may be told its voltage as well as a part of it. */
export function statedExtent(note: FaultNote, usual: Extent | undefined): Extent | undefined {
  if (!usual) return undefined;
  const stated = usual.dimension === 'resistance' ? note.ohms : note.ratio;
  if (stated !== undefined) return { dimension: usual.dimension, value: stated, source: 'this file' };
  if (usual.dimension === 'ratio' && note.volts !== undefined)
    return { dimension: 'voltage', value: note.volts, source: 'this file' };
  return undefined;
}
