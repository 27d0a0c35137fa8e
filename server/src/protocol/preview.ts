/** The preview of a procedure: the extension keeps a walk, the server walks it and says what is to be drawn. */
export const previewRequest = 'faultwalk/preview';

/** The command that opens the preview: `uri` of the procedure, and a step to begin at or a `PreviewWalk` to be shown. */
export const openPreviewCommand = 'faultwalk.openPreview';

/** Where a step or ending stands in the text: `StandingParams` to a `Place`, null where there is none. */
export const standingPlaceRequest = 'faultwalk/preview/place';

/** The step or ending in which a position lies: `PositionParams` to its name, null between them. */
export const standingAtRequest = 'faultwalk/preview/standing';

export interface StandingParams {
  textDocument: { uri: string };
  name: string;
}

export interface PositionParams {
  textDocument: { uri: string };
  position: { line: number; character: number };
}

/** All that is kept of a walk; the rest follows from it and the files. */
export interface PreviewWalk {
  /** Id of one of the variants offered; the first one where absent. */
  variant?: string;
  /** The symptom or code it starts from; the first one where absent. */
  start?: string;
  /** A step that it starts at instead. */
  from?: string;
  /** Id of the sample walk that is played. */
  sample?: string;
  /** Readings and answers so far, each with the step it was given at; a repair that is done has no text. */
  answers: { at: string; text: string }[];
  /** The step or ending that is looked at, where it is not the one at hand. */
  shown?: string;
}

export interface PreviewParams {
  textDocument: { uri: string };
  walk: PreviewWalk;
  /** The sample walk is to be played to its end. */
  playToEnd?: boolean;
}

/** Everything that is drawn. */
export interface PreviewState {
  title: string;
  /** The walk as far as it holds, to be kept in place of the one that was sent. */
  walk: PreviewWalk;
  variants: Option[];
  starts: Option[];
  samples: Option[];
  /** Cautions and tools of the whole procedure. */
  cautions: CautionText[];
  tools: string[];
  history: HistoryEntry[];
  sheet: Sheet;
  /** The step or ending at hand. */
  atHand: { name: string; title: string };
  refused?: Refusal;
  played?: Played;
  /** One sentence about what has just happened, for people who listen. */
  said: string;
}

export interface Option {
  id: string;
  label: string;
  chosen: boolean;
}

export interface CautionText {
  word: 'danger' | 'warning' | 'caution' | 'notice';
  text: string;
}

export interface HistoryEntry {
  name: string;
  title: string;
  /** The reading or answer as it was given; empty for an instruction that was carried out. */
  text: string;
  why: string;
}

/** One step or ending as a technician reads it. */
export interface Sheet {
  kind: 'step' | 'ending' | 'nowhere';
  name: string;
  title: string;
  minutes?: number;
  /** It is the one at hand, so it can be answered. */
  isAtHand: boolean;
  /** The procedure is over here. */
  isFinal: boolean;
  cautions: CautionText[];
  rows: Row[];
  branches: BranchText[];
  question: QuestionText;
  /** Uri of the procedure that an ending goes on in. */
  continuesIn?: string;
}

/** A label and what stands beside it. */
export interface Row {
  label: string;
  entries: RowEntry[];
}

export interface RowEntry {
  text: string;
  /** A sentence or a word, not a name or a value. */
  isProse?: boolean;
  note?: string;
  /** `done`: it is so already. `wrong`: it does not hold here. */
  mark?: 'done' | 'wrong';
}

export interface BranchText {
  key: string;
  /** The readings that it takes, where the key does not say it. */
  range?: string;
  /** Absent where nothing is written yet. */
  to?: string;
  title: string;
  kind: 'step' | 'ending' | 'missing';
}

export type QuestionText =
  | { ask: 'reading'; label: string; example: string }
  | { ask: 'choice'; choices: string[] }
  | { ask: 'go on'; label: string }
  | { ask: 'nothing' };

/** Why a reading leads nowhere. */
export interface Refusal {
  text: string;
  message: string;
  detail?: string;
  help?: string;
  suggestion?: string;
}

/** How far a sample walk has been played. */
export interface Played {
  name: string;
  expected: string;
  /** The next reading; absent when the sample has nothing more to say. */
  next?: string;
  verdict?: { reached: boolean; message: string; detail?: string };
}
