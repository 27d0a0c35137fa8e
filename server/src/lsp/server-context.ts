import type { Connection } from 'vscode-languageserver';
import type { Workspace } from '../analysis/workspace.ts';
import type { InitializationOptions } from '../protocol/messages.ts';
import type { Converter } from './convert.ts';
import type { Prover } from './prover/prover.ts';
import type { Roots } from './roots.ts';
import type { SettingsStore } from './settings.ts';
import type { Report, Texts } from './texts.ts';

/** What every handler works with. */
export interface Server {
  readonly connection: Connection;
  readonly workspace: Workspace;
  readonly texts: Texts;
  readonly roots: Roots;
  readonly convert: Converter;
  readonly settings: SettingsStore;
  readonly prover: Prover;
  /** What the client told when it connected. */
  readonly client: Client;
  /** The server goes on whatever is reported. */
  readonly report: Report;
}

export interface Client {
  options: InitializationOptions;
  canAskSettings: boolean;
  hasFolders: boolean;
  canRefresh: { hints: boolean; lenses: boolean; tokens: boolean };
}
