/** The requests and constants that the extension and the language server share beyond the protocol itself. */

/** The languages of Faultwalk, by the ending of the file name. */
export const languageOf = {
  '.system.yaml': 'faultwalk-system',
  '.procedure.yaml': 'faultwalk-procedure',
  '.samples.yaml': 'faultwalk-samples',
} as const;

export type LanguageId = (typeof languageOf)[keyof typeof languageOf];

/** Every file that the server wants to hear about, also when it is changed outside the editor. */
export const watchedFiles = '**/*.{system,procedure,samples}.yaml';

/** The section of the settings that the server asks for. */
export const settingsSection = 'faultwalk';

/** How loudly a rule speaks. */
export type RuleLevel = 'error' | 'warning' | 'information' | 'off';

/** The settings under `faultwalk`, as the editor sends them. */
export interface Settings {
  /** Rule id to the level that replaces the rule's own. */
  rules: Record<string, RuleLevel>;
  /** Whether the circuit's own range stands beside each limit. */
  inlayHints: boolean;
}

/** What the client tells the server once, in `initializationOptions`. */
export interface InitializationOptions {
  /** The address of a rule's documentation, with `{rule}` where its id goes; diagnostics link to it. */
  rulePage?: string;
}

/** Notification, server to client: what the server is doing. */
export const statusNotification = 'faultwalk/status';

export interface Status {
  state: 'starting' | 'checking' | 'idle' | 'problem';
  /** A few words, shown in the status item. */
  text: string;
  /** A sentence more, shown under it. */
  detail?: string;
}

/** The command behind a code lens: opens the list of `places` at `at` in the file `uri`. */
export const showReferencesCommand = 'faultwalk.showReferences';

export interface Place {
  uri: string;
  range: { start: LineAndCharacter; end: LineAndCharacter };
}

/** Both count from 0, a character being one UTF-16 unit, as in the language server protocol. */
export interface LineAndCharacter {
  line: number;
  character: number;
}

export type ShowReferencesArguments = [uri: string, at: LineAndCharacter, places: Place[]];
