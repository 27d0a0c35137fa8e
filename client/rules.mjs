/** What the records of the rules are turned into: manual pages for the package, and the settings in `package.json`. */
import * as path from 'node:path';
import { fileURLToPath } from 'node:url';
import * as esbuild from 'esbuild';

const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '..');

/** The rules in the order of the manual, each with its page: `{ id, title, severity, page }`. */
export async function readRules() {
  const source = `
    import { rules } from './server/src/rules/index.ts';
    import { rulePage } from './server/src/publish/rule-page.ts';
    export default rules.map(rule => ({ id: rule.id, title: rule.title, severity: rule.severity, page: rulePage(rule) }));
  `;
  const built = await esbuild.build({
    stdin: { contents: source, resolveDir: root, loader: 'ts' },
    absWorkingDir: root,
    bundle: true,
    write: false,
    format: 'esm',
    platform: 'node',
    logLevel: 'warning',
    mainFields: ['module', 'main'],
  });
  const { text } = built.outputFiles[0];
  const { default: rules } = await import(`data:text/javascript;base64,${Buffer.from(text).toString('base64')}`);
  return rules;
}
