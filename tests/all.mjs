/**
 * Checks everything, stage by stage, and ends with what failed and one line of totals.
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
const resultsFile = path.join(artifacts, 'results.json');
const only = process.argv.slice(2);
const results = [];

await stage('types', 'Types', () => {
  const projects = ['tsconfig.json', 'tests/editor/suite/tsconfig.json', 'client/panel/view/tsconfig.json'];
  return each(projects, project => run('tsc', '-p', project));
});
await stage('lint', 'Lint', () => each(['.'], where => run('biome', 'check', '--error-on-warnings', where)));
await stage('generated', 'Generated files', () => each(generators(), file => node(file, '--check')));
await stage('vitest', 'Unit, tidy, reference and protocol tests', () => {
  fs.rmSync(resultsFile, { force: true });
  // The limit only ends a test that hangs; a build machine may be slow.
  const code = run(
    'vitest',
    'run',
    '--testTimeout=120000',
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${resultsFile}`,
  );
  const { numPassedTests: passed = 0, numFailedTests: failed = 0, testResults: files = [] } = readResults();
  // A file that cannot even be loaded has no tests that could be counted.
  const broken = files.filter(({ status, assertionResults }) => status === 'failed' && assertionResults.length === 0);
  return { ...atLeastOne(code, { passed, failed: failed + broken.length }), failures: files.flatMap(failuresIn) };
});
await stage('package', 'Package', () => counted(results => ['tests/editor/package.mjs', results]));
await stage('editor', 'The suite inside a real editor, which has the package installed', () =>
  inEditor(results => ['tests/editor/run-browser.mjs', '--vsix', packageFile(), '--results', results]),
);
await stage('look', 'The editor as its users see it', () =>
  inEditor(results => ['tests/editor/look.mjs', '--vsix', packageFile(), '--results', results]),
);
await stage('try', 'The command of the README that opens the examples', () =>
  inEditor(() => ['tests/editor/open.mjs', '--once']),
);
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

/** Runs a script that writes `{ passed, failed }` into the file that it is given, or counts as one check by its exit status. */
function counted(script) {
  fs.rmSync(resultsFile, { force: true });
  fs.mkdirSync(artifacts, { recursive: true });
  const code = node(...script(resultsFile));
  return atLeastOne(code, readResults());
}

async function inEditor(script) {
  const notRun = await whyNoEditor();
  if (notRun !== undefined) return { passed: 0, failed: 0, notRun };
  if (packageFile() !== undefined) return counted(script);
  console.log('There is no package to install; make one with `node tests/all.mjs package`');
  return { passed: 0, failed: 1 };
}

/** What failed in a test file, each with the beginning of what it says. */
function failuresIn({ name, status, message, assertionResults }) {
  if (status !== 'failed') return [];
  const failed = assertionResults.filter(result => result.status === 'failed');
  const said = failed.map(({ fullName, failureMessages }) => `${fullName}\n${beginning(failureMessages.join('\n'))}`);
  return (said.length > 0 ? said : [beginning(message)]).map(text => `${path.relative(root, name)}: ${text}`);
}

function beginning(text) {
  return text.split('\n').slice(0, 8).join('\n');
}

/** A program that ends badly without having counted a failure has still failed; one that counts nothing is one check. */
function atLeastOne(code, { passed = 0, failed = 0, failures = [] }) {
  if (code !== 0) return { passed, failed: Math.max(failed, 1), failures };
  return { passed: passed + failed === 0 ? 1 : passed, failed, failures };
}

function readResults() {
  return fs.existsSync(resultsFile) ? JSON.parse(fs.readFileSync(resultsFile, 'utf8')) : {};
}

function packageFile() {
  const found = fs.existsSync(artifacts) && fs.readdirSync(artifacts).find(name => /^faultwalk-.*\.vsix$/.test(name));
  return found ? path.join(artifacts, found) : undefined;
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
  // A log that is cut still shows its end: what failed stands there once more.
  const failures = results.flatMap(({ title, failures = [] }) => failures.map(text => `${title}: ${text}`));
  if (failures.length > 0) console.log(`\n=== What failed\n${failures.join('\n\n')}`);
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
