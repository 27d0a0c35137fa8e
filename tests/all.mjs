/**
 * Checks everything, stage by stage, and ends with one line of totals.
 *
 *   node tests/all.mjs [stage...]     only the named stages
 *
 * A stage that this machine cannot run is named at the end; where CI is set, that counts as a failure.
 */
import { spawnSync } from 'node:child_process';
import * as fs from 'node:fs';
import * as path from 'node:path';
import { findBrowser } from './editor/host/browser.mjs';
import { root, setUpHost } from './editor/host/setup.mjs';

const artifacts = path.join(root, '.artifacts');
const only = process.argv.slice(2);
const results = [];

await stage('types', 'Types', () => {
  const projects = ['tsconfig.json', 'tests/editor/suite/tsconfig.json', 'client/preview/view/tsconfig.json'];
  return each(projects, project => run('tsc', '-p', project));
});
await stage('lint', 'Lint', () => each(['.'], where => run('biome', 'check', '--error-on-warnings', where)));
await stage('generated', 'Generated files', () => each(generators(), file => node(file, '--check')));
await stage('vitest', 'Unit, tidy, reference and protocol tests', () => {
  const file = path.join(artifacts, 'vitest.json');
  fs.rmSync(file, { force: true });
  const code = run('vitest', 'run', '--reporter=default', '--reporter=json', `--outputFile.json=${file}`);
  const { numPassedTests: passed, numFailedTests: failed } = readJson(file);
  return atLeastOneFailure(code, { passed, failed });
});
await stage('package', 'Package', () => {
  const file = path.join(artifacts, 'package.json');
  fs.rmSync(file, { force: true });
  return atLeastOneFailure(node('tests/editor/package.mjs', file), readJson(file));
});
await stage('editor', 'Editor, in a real workbench, from the package', async () => {
  const reason = await whyNoEditor();
  if (reason !== undefined) return { passed: 0, failed: 0, notRun: reason };
  const file = path.join(artifacts, 'editor.json');
  fs.rmSync(file, { force: true });
  const packaged = fs.readdirSync(artifacts).find(name => name.endsWith('.vsix'));
  const code = node(
    'tests/editor/run-browser.mjs',
    '--results',
    file,
    ...(packaged ? ['--vsix', path.join(artifacts, packaged)] : []),
  );
  return atLeastOneFailure(code, readJson(file));
});
report();

async function stage(name, title, body) {
  if (only.length > 0 && !only.includes(name)) return;
  console.log(`\n=== ${title}`);
  const start = Date.now();
  const result = await body();
  const seconds = (Date.now() - start) / 1000;
  results.push({ title, seconds, ...result });
  console.log(`${title}: ${totals(result)} (${seconds.toFixed(1)} s)`);
}

/** One result for each item: passed where the command ended with 0. */
function each(items, command) {
  const codes = items.map(item => command(item));
  return { passed: codes.filter(code => code === 0).length, failed: codes.filter(code => code !== 0).length };
}

/** A program that ends badly without counting anything as failed has still failed. */
function atLeastOneFailure(code, { passed = 0, failed = 0 }) {
  return { passed, failed: code !== 0 && failed === 0 ? 1 : failed };
}

/** Each script that writes files which are kept in the tree; with `--check` it only compares them. */
function generators() {
  return ['client/generate.mjs'].filter(file => fs.existsSync(path.join(root, file)));
}

async function whyNoEditor() {
  try {
    setUpHost();
  } catch (error) {
    return error.message;
  }
  return (await findBrowser()) === undefined ? 'no browser of the Chromium family was found' : undefined;
}

function report() {
  console.log('\n=== Altogether');
  for (const result of results) {
    console.log(`${totals(result).padEnd(24)} ${result.seconds.toFixed(1).padStart(6)} s  ${result.title}`);
  }
  const notRun = results.filter(result => result.notRun !== undefined);
  for (const { title, notRun: reason } of notRun) console.log(`NOT RUN: ${title}: ${reason}`);
  const sum = key => results.reduce((total, result) => total + result[key], 0);
  const failed = sum('failed') + (process.env.CI ? notRun.length : 0);
  console.log(`${sum('passed')} passed, ${failed} failed`);
  process.exitCode = failed === 0 ? 0 : 1;
}

function totals({ passed, failed, notRun }) {
  return notRun === undefined ? `${passed} passed, ${failed} failed` : 'not run';
}

/** Runs a program of a development dependency. */
function run(program, ...args) {
  return spawn(path.join(root, 'node_modules/.bin', program), args);
}

function node(...args) {
  return spawn(process.execPath, args);
}

function spawn(program, args) {
  const { status, error } = spawnSync(program, args, { cwd: root, stdio: ['ignore', 'inherit', 'inherit'] });
  if (error) console.log(error.message);
  return status ?? 1;
}

function readJson(file) {
  return fs.existsSync(file) ? JSON.parse(fs.readFileSync(file, 'utf8')) : {};
}
