import type { Option } from './preview.ts';

/** Where every fault of a procedure ends: the extension keeps how somebody looks at it, the server says what is to be drawn. `CoverageParams` to a `CoverageAnswer`, null where there is no procedure. */
export const coverageRequest = 'faultwalk/coverage';

/** One of the walks, to be stepped through in the preview: `CoverageWalkParams` to a `PreviewWalk`, null where there is none. */
export const coverageWalkRequest = 'faultwalk/coverage/walk';

/** Notification, server to client: every fault has been walked anew through the procedure with this uri (`Proved`), or cannot be. */
export const provedNotification = 'faultwalk/proved';

export interface Proved {
  uri: string;
}

export interface CoverageParams {
  textDocument: { uri: string };
  look: CoverageLook;
}

/** With neither its faults are being walked for the first time. */
export interface CoverageAnswer {
  state?: CoverageState;
  failed?: CoverageFailure;
}

/** Why faults cannot be walked: it takes more memory than it may, or something in the checker went wrong. */
export type CoverageFailure = 'memory' | 'mistake';

export interface CoverageWalkParams {
  textDocument: { uri: string };
  variant?: string;
  /** The place of the walk among those of its variant, and of the end among those of the walk. */
  walk: number;
  end: number;
}

/** How somebody looks at it; the rest follows from it and the walks. */
export interface CoverageLook {
  /** Id of one of the variants offered; the first one where absent. */
  variant?: string;
  /** Only faults that have this in a name. */
  find?: string;
  /** Only walks that end badly, or of which a bad end is not ruled out. */
  badOnly?: boolean;
  /** Owners whose faults are shown one by one. */
  unfolded?: string[];
  /** The walks that are listed. */
  list?: WalkChoice;
}

/** Walks of which all holds that is given here. */
export interface WalkChoice {
  results?: ResultName[];
  /** An ending, or a step where a walk is stuck. */
  at?: string;
  owner?: string;
  /** As it is called in its row. */
  fault?: string;
  /** The repair names at most so many. */
  most?: number;
  /** Some machines inside the tolerances come to a better end. */
  undecided?: boolean;
  /** A bad end is neither found nor ruled out. */
  unproved?: boolean;
  /** Only what is looked for by its name, and only bad ends where only they are shown. */
  narrowed?: boolean;
  /** All of them are listed, however many there are. */
  all?: boolean;
}

export type ResultName = 'right' | 'several' | 'handed on' | 'unknown' | 'stuck' | 'not found' | 'wrong part';

/** Everything that is drawn. */
export interface CoverageState {
  title: string;
  /** As it is kept from now on. */
  look: CoverageLook;
  /** The files have changed since, and are being walked anew. */
  isEarlier: boolean;
  variants: Option[];
  /** What it all comes to, in a sentence or two. */
  summary: string;
  /** What walks come to, from the best to the worst; those that none comes to are left out. */
  results: ResultShare[];
  figures: FigureRow[];
  /** Where walks of faults end, endings in the order of the text and then steps. */
  ends: EndShare[];
  /** Faults by ends, as far as they are looked for. */
  matrix: Matrix;
  /** Those of which a bad end is neither found nor ruled out. */
  unproved?: { text: string; choice: WalkChoice };
  /** Names of faults that are not walked, each lot with its reason. */
  notWalked: { title: string; reason: string; owners: { owner: string; faults: string[] }[] }[];
  list?: WalkList;
  /** One sentence about what is shown, for people who listen. */
  said: string;
}

export interface ResultShare {
  result: ResultName;
  title: string;
  meaning: string;
  isBad: boolean;
  walks: number;
  /** Of all walks of faults, 0 to 1, and as it is read. */
  share: number;
  percent: string;
  weighted: number;
  weightedPercent: string;
  choice: WalkChoice;
}

export interface FigureRow {
  name: string;
  /** `14 of 89`, or a mean. */
  counted: string;
  /** What it is a part of, or what the mean is taken over. */
  of: string;
  percent: string;
  weighted: string;
  /** The walks behind it. */
  choice?: WalkChoice;
}

export interface EndShare extends EndColumn {
  walks: number;
  percent: string;
  /** Walks of faults that end here by what they come to. */
  parts: { result: ResultName; title: string; walks: number; share: number; choice: WalkChoice }[];
}

export interface EndColumn {
  at: string;
  title: string;
  isEnding: boolean;
}

export interface Matrix {
  columns: EndColumn[];
  /** The machine without a fault, then the owners in the order of the file. */
  rows: OwnerRow[];
  /** How many faults are in it, of how many. */
  left: string;
}

export interface OwnerRow {
  /** Empty for the machine without a fault. */
  owner: string;
  title: string;
  walks: number;
  cells: EndCell[];
  /** Its faults one by one, where it is unfolded. */
  faults?: FaultRow[];
}

export interface FaultRow {
  /** Its name, with `(now and then)` where it comes and goes. */
  fault: string;
  title: string;
  walks: number;
  cells: EndCell[];
}

/** Only where something ends or may end. */
export interface EndCell {
  /** Index of the column. */
  column: number;
  /** Walks that end here, and the worst that one of them comes to. */
  walks: number;
  result: ResultName;
  /** Walks that some machines, or some answers, also bring here. */
  also: number;
  /** Of those, one comes to a bad end here that is neither found nor ruled out. */
  isOpen: boolean;
  /** Its walks are the ones that are listed. */
  isListed: boolean;
  /** All of that for people who listen. */
  words: string;
  choice: WalkChoice;
}

export interface WalkList {
  title: string;
  walks: ListedWalk[];
  /** How many more there are than are listed. */
  more: number;
}

/** One walk to one end. */
export interface ListedWalk {
  walk: number;
  end: number;
  fault: string;
  title: string;
  /** The symptom or code that it comes in by, or the step it starts at. */
  entry: string;
  result: ResultName;
  resultTitle: string;
  at: string;
  atTitle: string;
  minutes: string;
  way: { at: string; text: string }[];
  /** Why it stops, which machine it is, where it may end otherwise: a sentence each. */
  remarks: string[];
}
