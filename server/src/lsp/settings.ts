import type { Connection } from 'vscode-languageserver';
import { type RuleLevel, type Settings, settingsSection } from '../protocol/messages.ts';

/** The settings that hold for a file, asked from the editor once for each root folder. */
export interface SettingsStore {
  for(root: string | undefined): Promise<Settings>;
  /** Called when they changed; `pushed` is what an editor without questions sent along. */
  forget(pushed: unknown): void;
}

const defaults: Settings = { rules: {}, inlayHints: true };

export function settingsStore(connection: Connection, canAsk: () => boolean): SettingsStore {
  const known = new Map<string | undefined, Promise<Settings>>();
  let last: unknown;

  const ask = async (root: string | undefined): Promise<Settings> => {
    if (!canAsk()) return settingsFrom(last);
    const scopeUri = root;
    return settingsFrom(await connection.workspace.getConfiguration({ section: settingsSection, scopeUri }));
  };

  return {
    for(root) {
      const answer = known.get(root) ?? ask(root).catch(() => defaults);
      known.set(root, answer);
      return answer;
    },
    forget(pushed) {
      last = (pushed as Record<string, unknown> | undefined)?.[settingsSection];
      known.clear();
    },
  };
}

/** Settings are written by hand as well: what is not understood falls back to its default. */
export function settingsFrom(given: unknown): Settings {
  if (typeof given !== 'object' || given === null) return defaults;
  const { rules, inlayHints } = given as Record<string, unknown>;
  return {
    rules: typeof rules === 'object' && rules !== null ? levelsIn(rules) : {},
    inlayHints: typeof inlayHints === 'boolean' ? inlayHints : defaults.inlayHints,
  };
}

const levels: readonly unknown[] = ['error', 'warning', 'information', 'off'] satisfies RuleLevel[];

function levelsIn(rules: object): Record<string, RuleLevel> {
  return Object.fromEntries(Object.entries(rules).filter(([, level]) => levels.includes(level)));
}
