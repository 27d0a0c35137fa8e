/** What a complaint about a system can name: `DraftChoicesParams` to `DraftChoices`, null where there is no system. */
export const draftChoicesRequest = 'faultwalk/draft/choices';

/** A procedure drafted for a complaint: `DraftParams` to a `DraftAnswer`, null where there is no such system or variant. */
export const draftRequest = 'faultwalk/draft';

export interface DraftChoicesParams {
  textDocument: { uri: string };
  /** The first one where absent. */
  variant?: string;
}

export interface DraftChoices {
  variants: string[];
  /** What somebody can see the machine do. */
  seen: DraftChoice[];
  /** What can be set beforehand. */
  settable: DraftChoice[];
}

export interface DraftChoice {
  /** `Y1`, `A1.22`, `A1 keypad`, `key`. */
  name: string;
  title?: string;
  /** `load`, `output`, `scan data`, `condition`, `part`. */
  sort: string;
  /** Empty for a number, which is written with its unit. */
  states: string[];
  /** Its state while everything is at rest. */
  rest?: string;
}

export interface DraftParams {
  textDocument: { uri: string };
  variant: string;
  symptom: string;
  /** Names with their states: in which condition it is seen, and what the machine then does. */
  set: [name: string, state: string][];
  when: [name: string, state: string][];
}

/** One of the two. */
export interface DraftAnswer {
  drafted?: {
    /** A name for the file, without folder. */
    name: string;
    text: string;
    /** What is to be said about it, in a few sentences. */
    said: string;
  };
  refused?: {
    /** `good machine`: it does the same unless more is set. */
    because: 'not possible' | 'good machine' | 'no fault';
    message: string;
  };
}
