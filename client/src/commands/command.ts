import type * as vscode from 'vscode';
import type { CoveragePanels } from '../../coverage/host.ts';
import type { Previews } from '../../preview/host.ts';
import type { ValuesPanels } from '../../values/host.ts';
import type { Checker } from '../language-client.ts';
import type { StatusItem } from '../status.ts';

/** One entry of the command palette, or a command that links and lenses call; `package.json` gives it its title. */
export interface Command {
  id: string;
  run(services: Services, ...args: unknown[]): unknown;
}

/** What a command may use. The extension also returns it from `activate`, so that the suite in the editor can look inside. */
export interface Services {
  context: vscode.ExtensionContext;
  checker: Checker;
  status: StatusItem;
  previews: Previews;
  values: ValuesPanels;
  coverage: CoveragePanels;
}
