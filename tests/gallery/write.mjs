/** Writes `examples/broken` anew: `npm run gallery`. */
import * as fs from 'node:fs';
import { createRequire } from 'node:module';
import * as path from 'node:path';
import { fileURLToPath } from 'node:url';
import * as esbuild from 'esbuild';
import { globSync } from 'tinyglobby';

const root = path.resolve(fileURLToPath(import.meta.url), '../../..');
const examples = path.join(root, 'examples');
const bundle = path.join(root, '.artifacts/gallery.cjs');
await esbuild.build({
  entryPoints: [path.join(root, 'tests/gallery/gallery.ts')],
  outfile: bundle,
  bundle: true,
  format: 'cjs',
  platform: 'node',
  logLevel: 'warning',
});
const { exhibits, filesOf } = createRequire(import.meta.url)(bundle);

const clean = globSync('*/*.yaml', { cwd: examples }).sort();
const files = filesOf(exhibits(new Map(clean.map(file => [file, fs.readFileSync(path.join(examples, file), 'utf8')]))));
for (const [file, text] of files) {
  fs.mkdirSync(path.dirname(path.join(examples, file)), { recursive: true });
  fs.writeFileSync(path.join(examples, file), text);
}
for (const old of globSync('broken/**', { cwd: examples })) {
  if (!files.has(old)) fs.rmSync(path.join(examples, old));
}
console.log(`${files.size} files written to examples/broken`);
