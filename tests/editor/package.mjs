/**
 * Packs the extension into `.artifacts/` and looks into the package: what must be in it, and what must not.
 *
 *   node tests/editor/package.mjs [results.json]
 */
import { spawnSync } from 'node:child_process';
import * as fs from 'node:fs';
import { isBuiltin } from 'node:module';
import * as path from 'node:path';
import { root } from './host/setup.mjs';

const manifest = JSON.parse(fs.readFileSync(path.join(root, 'package.json'), 'utf8'));
const artifacts = path.join(root, '.artifacts');
const file = path.join(artifacts, `faultwalk-${manifest.version}.vsix`);
const results = { passed: 0, failed: 0, failures: [] };

fs.mkdirSync(artifacts, { recursive: true });
for (const old of fs.readdirSync(artifacts).filter(name => name.endsWith('.vsix')))
  fs.rmSync(path.join(artifacts, old));
const packed = spawnSync('npm', ['run', '--silent', 'package', '--', '--out', file], { cwd: root, encoding: 'utf8' });
check('it can be packed', packed.status === 0 ? [] : [packed.stdout + packed.stderr]);

if (packed.status === 0) lookInside(namesInZip(fs.readFileSync(file)));

console.log(`${results.passed} passed, ${results.failed} failed`);
if (process.argv[2]) fs.writeFileSync(process.argv[2], JSON.stringify(results));
process.exitCode = results.failed === 0 ? 0 : 1;

function lookInside(names) {
  check(
    'it holds nothing but what ships',
    names.filter(name => !ships(name)),
  );
  check(
    'it holds no test and no source file',
    names.filter(name => /\.(ts|mts|mjs|map)$|(^|\/)(tests?|src|node_modules)\//.test(name)),
  );
  check(
    'it holds everything that its manifest names',
    filesNamedIn(manifest).filter(name => !names.includes(`extension/${name}`)),
  );
  check('its programs need nothing beside Node and the editor', bundles().flatMap(neededBy));
  check('the command line runs from a checkout', runsFromCheckout());

  const kB = (fs.statSync(file).size / 1024).toFixed(0);
  console.log(`${path.relative(root, file)}: ${names.length} files, ${kB} kB`);
}

/** A check passes when it finds nothing against the package. */
function check(title, against) {
  results[against.length === 0 ? 'passed' : 'failed']++;
  if (against.length > 0) results.failures.push([title, ...against].join('\n'));
  console.log(`  ${against.length === 0 ? '✔' : '✘'} ${title}`);
  for (const line of against) console.log(`      ${line}`);
}

function ships(name) {
  return [
    /^\[Content_Types\]\.xml$|^extension\.vsixmanifest$/,
    /^extension\/(package\.json|readme\.md|changelog\.md|LICENSE\.txt)$/,
    /^extension\/dist\/((extension|server|prover|cli)\.cjs|(preview|values|coverage)\.(js|css)|rules\/[\w-]+\.md)$/,
    /^extension\/client\/(languages\/[\w.-]+\.json|walkthrough\/[\w-]+\.md|media\/([\w/-]+\.png|[\w-]+\.svg))$/,
    /^extension\/schemas\/[\w-]+(\.schema)?\.json$/,
    /^extension\/examples\/(generator|loader|workboat)\/.+|^extension\/examples\/README\.md$/,
  ].some(allowed => allowed.test(name));
}

/** Every relative path that the manifest names, wherever it stands. */
function filesNamedIn(value) {
  if (Array.isArray(value)) return value.flatMap(filesNamedIn);
  if (typeof value === 'object' && value !== null) {
    return Object.entries(value).flatMap(([key, inner]) => (key === 'scripts' ? [] : filesNamedIn(inner)));
  }
  const isPath = typeof value === 'string' && /^(\.\/)?(client|dist|schemas)\/[^\s*]+\.\w+$/.test(value);
  return isPath ? [value.replace(/^\.\//, '')] : [];
}

function bundles() {
  return ['extension', 'server', 'prover', 'cli'].map(name => `dist/${name}.cjs`);
}

function neededBy(bundle) {
  const text = fs.readFileSync(path.join(root, bundle), 'utf8');
  const needed = [...text.matchAll(/\brequire\(\s*["']([^"']+)["']\s*\)/g)].map(match => match[1]);
  return needed.filter(name => name !== 'vscode' && !isBuiltin(name)).map(name => `${bundle} asks for ${name}`);
}

function runsFromCheckout() {
  const help = spawnSync('npx', ['--no', '--', 'faultwalk', '--help'], { cwd: root, encoding: 'utf8' });
  return help.status === 0 && help.stdout.includes('faultwalk') ? [] : [help.stdout + help.stderr];
}

/** The names in a zip file, read from the directory at its end (PKWARE APPNOTE 6.3, section 4.3.12). */
function namesInZip(bytes) {
  const end = bytes.lastIndexOf(Buffer.from('PK\x05\x06', 'latin1'));
  const count = bytes.readUInt16LE(end + 10);
  const found = [];
  let at = bytes.readUInt32LE(end + 16);
  for (let i = 0; i < count; i++) {
    const [nameLength, extraLength, commentLength] = [28, 30, 32].map(offset => bytes.readUInt16LE(at + offset));
    found.push(bytes.toString('utf8', at + 46, at + 46 + nameLength));
    at += 46 + nameLength + extraLength + commentLength;
  }
  return found;
}
