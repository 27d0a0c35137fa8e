/**
 * Builds everything that ships into `dist/`: the extension, the language server, the command line, the panels and the pages of the
 * rules, and beside them `dist/test/`, the suite that runs inside the editor. Each program is one file, so that little is read when
 * the editor starts.
 *
 *   node client/build.mjs [--production] [--watch]
 */
import * as fs from 'node:fs';
import * as path from 'node:path';
import { fileURLToPath } from 'node:url';
import * as esbuild from 'esbuild';
import { readManual } from './rules.mjs';

const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '..');
const production = process.argv.includes('--production');
const watch = process.argv.includes('--watch');

/** What every bundle shares; sources stay ES modules, the bundles are CommonJS because every supported editor loads that. */
const shared = {
  absWorkingDir: root,
  bundle: true,
  minify: production,
  keepNames: production,
  sourcemap: production ? false : 'linked',
  sourcesContent: false,
  legalComments: 'none',
  logLevel: 'warning',
  charset: 'utf8',
};
const node = {
  ...shared,
  platform: 'node',
  target: 'node20',
  format: 'cjs',
  // The UMD build of these packages hides its `require` calls from a bundler; their ES module build does not.
  mainFields: ['module', 'main'],
};

const bundles = [
  { ...node, entryPoints: ['client/src/extension.ts'], outfile: 'dist/extension.cjs', external: ['vscode'] },
  { ...node, entryPoints: ['server/src/lsp/server.ts'], outfile: 'dist/server.cjs' },
  { ...node, entryPoints: ['server/src/lsp/prover/worker.ts'], outfile: 'dist/prover.cjs' },
  {
    ...node,
    entryPoints: ['server/src/cli/main.ts'],
    outfile: 'dist/cli.cjs',
    // A package that looks for files asks where it stands itself.
    define: { 'import.meta.url': 'moduleUrl' },
    banner: { js: `#!/usr/bin/env node\nconst moduleUrl = require('node:url').pathToFileURL(__filename).href;` },
  },
  ...['preview', 'values', 'coverage'].flatMap(panel => [
    {
      ...shared,
      entryPoints: [`client/${panel}/view/main.ts`],
      outfile: `dist/${panel}.js`,
      platform: 'browser',
      target: 'es2022',
      format: 'iife',
    },
    { ...shared, entryPoints: [`client/${panel}/view/${panel}.css`], outfile: `dist/${panel}.css` },
  ]),
  {
    ...node,
    entryPoints: ['tests/editor/suite/index.ts'],
    outfile: 'dist/test/index.cjs',
    external: ['vscode', 'mocha'],
    minify: false,
  },
].filter(bundle => fs.existsSync(path.join(root, bundle.entryPoints[0])));

if (watch) {
  for (const options of bundles) await (await esbuild.context({ ...options, logLevel: 'info' })).watch();
} else {
  // Everything is built before anything is replaced, and each file at one stroke: a mistake in the sources leaves the last good
  // build in place, and whoever reads while this runs finds whole files.
  const built = await Promise.all(bundles.map(options => esbuild.build({ ...options, write: false })));
  const pages = (await readManual()).map(({ name, text }) => ({
    path: path.join(root, 'dist/rules', name),
    contents: text,
  }));
  const files = [...pages, ...built.flatMap(result => result.outputFiles)];
  for (const file of files) {
    fs.mkdirSync(path.dirname(file.path), { recursive: true });
    fs.writeFileSync(`${file.path}.new`, file.contents, { mode: 0o755 });
    fs.renameSync(`${file.path}.new`, file.path);
  }
  removeOthers(path.join(root, 'dist'), new Set(files.map(file => file.path)));
}

/** What an earlier build left behind, for example the page of a rule that is gone. */
function removeOthers(dir, kept) {
  for (const entry of fs.readdirSync(dir, { withFileTypes: true })) {
    const file = path.join(dir, entry.name);
    if (entry.isDirectory()) removeOthers(file, kept);
    else if (!kept.has(file) && !file.endsWith('.new')) fs.rmSync(file, { force: true });
  }
}
