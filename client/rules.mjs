/** What the records of the rules are turned into: manual pages for the package, and the settings in `package.json`. */
import * as fs from 'node:fs';
import * as path from 'node:path';
import { fileURLToPath } from 'node:url';
import * as esbuild from 'esbuild';

const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '..');

/** The rules in the order of the manual. */
export async function readRules() {
  return (await load()).rules;
}

/** Every page of the manual: `{ name, text }`. */
export async function readManual() {
  const { rules, ruleIndex, rulePage } = await load();
  const exhibits = readExhibits();
  const pages = rules.map(rule => ({ name: `${rule.id}.md`, text: rulePage(rule, exhibits.get(rule.id)) }));
  return [{ name: 'index.md', text: ruleIndex(rules) }, ...pages];
}

async function load() {
  const source = `
    export { rules } from './server/src/rules/index.ts';
    export { ruleIndex, rulePage } from './server/src/publish/rule-page.ts';
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
  return import(`data:text/javascript;base64,${Buffer.from(text).toString('base64')}`);
}

/** What stands under the name of each rule in the page of the gallery. */
function readExhibits() {
  const gallery = fs.readFileSync(path.join(root, 'examples/broken/README.md'), 'utf8');
  const entries = gallery.split(/^#{2,3} /m).flatMap(entry => {
    const [, id, body] = /^\[`([a-z-]+)`\].*\n([\s\S]*)$/.exec(entry) ?? [];
    return id === undefined ? [] : [[id, body.trim()]];
  });
  return new Map(entries);
}
