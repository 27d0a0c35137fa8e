import type { Procedure } from '../model/procedure.ts';
import type { Samples } from '../model/samples.ts';
import type { System } from '../model/system.ts';
import type { SyntaxTree } from '../syntax/tree.ts';
import type { Circuit } from './electrical.ts';
import type { Flow } from './flow.ts';
import type { Instructions } from './make-flow.ts';
import type { Situation } from './situation.ts';

/** One file as it stands, with everything that is asked about it more than once. Views are immutable; the workspace makes new ones. */
export type FileView = SystemView | ProcedureView | SamplesView | OtherView;

interface Common {
  readonly uri: string;
  readonly tree: SyntaxTree;
  /** Whether the workspace has a file of this uri. */
  whereabouts(uri: string): Whereabouts;
}

export interface SystemView extends Common {
  readonly kind: 'system';
  readonly system: System;
  /** Uris of the included files, in order; undefined for a name that is no file. */
  readonly includes: readonly (string | undefined)[];
  /** What was read of them, in the same order; a file that is missing or closes a circle leaves its place empty. */
  readonly included: readonly (SystemView | undefined)[];
  /** Made on first use and kept while the circuit stays equal. */
  circuit(variant: string): Circuit;
  /** Procedures known to the workspace that apply to this system. */
  readonly usedBy: readonly ProcedureView[];
}

export interface ProcedureView extends Common {
  readonly kind: 'procedure';
  readonly procedure: Procedure;
  /** Each system and variant that the procedure applies to and that could be read. */
  readonly cases: readonly Case[];
  /** The systems behind `applies to`, in order; undefined where a file is missing or unreadable. */
  readonly systems: ReadonlyMap<string, SystemView | undefined>;
  /** Uris of the procedures that endings go on in. */
  readonly continuesIn: readonly string[];
}

export interface SamplesView extends Common {
  readonly kind: 'samples';
  readonly samples: Samples;
  /** Uri of the procedure that is walked. */
  readonly of?: string;
  readonly procedure?: ProcedureView;
}

export interface OtherView extends Common {
  readonly kind: 'other';
}

/** A procedure on one system in one variant. */
export interface Case {
  readonly view: SystemView;
  readonly system: System;
  readonly variant: string;
  readonly procedure: Procedure;
  readonly circuit: Circuit;
  readonly flow: Flow;
  /** The situation after the instructions of a step or an ending. */
  after(instructions: Instructions, now: Situation): Situation;
}

/** Why the host cannot give a file: not there, not in the folders it may read, larger than it reads. */
export type Absence = 'absent' | 'outside' | 'too large';

export type Whereabouts = 'here' | Absence;
