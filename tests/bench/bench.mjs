/**
 * Measures, in one run on one machine: what an edit costs in a procedure of 1,000 steps, beside bare parsing of the same text
 * and a general-purpose language server with the same schema; how soon a file of common size has its findings; how long a start takes;
 * how fast the circuit is, beside a general-purpose simulator; how long the best order of tests takes to find.
 * Numbers say little where other work runs on the machine, so its load is printed with them.
 *
 *   npm run bench [-- --edits 40]
 */
import * as fs from 'node:fs';
import * as os from 'node:os';
import * as path from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';
import * as esbuild from 'esbuild';
import { parseDocument } from 'yaml';
import * as edits from './edits.mjs';
import { extensionLoadMs } from './extension-load.mjs';
import { printOperatingPoints } from './operating-points.mjs';
import { peerProgram, peerSettings } from './peer.mjs';
import { procedureName, procedureText } from './plant-procedure.mjs';
import { systemName, systemText } from './plant-system.mjs';
import { printProofs } from './proofs.mjs';
import { startSession } from './session.mjs';
import { printTestOrders } from './test-orders.mjs';

const { values } = parseArgs({ options: { edits: { type: 'string', default: '40' } } });
const count = Number(values.edits);
const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '../..');
const artifacts = path.join(root, '.artifacts/bench');
const server = { program: path.join(root, 'dist/server.cjs'), idle: 'faultwalk/status' };

const [system, procedure] = [systemText(), procedureText()];
const folder = path.join(artifacts, 'plant');
const [systemUri, procedureUri] = [systemName, procedureName].map(name => pathToFileURL(path.join(folder, name)).href);
fs.rmSync(folder, { recursive: true, force: true });
fs.mkdirSync(folder, { recursive: true });

console.log(`
A procedure of 1,000 steps (${lines(procedure)} lines, ${kB(procedure)}) on a system of 300 parts (${lines(system)} lines).
Node ${process.version}, ${os.cpus().length} processors, load ${os.loadavg()[0].toFixed(1)} before the run.
Milliseconds; an edit counts from its being sent to its findings having come.
`);

const parse = await measured(count, () => timed(() => parseDocument(procedure)));
heading('Bare parsing of the procedure');
row('yaml, parseDocument', parse);

heading('An edit of the procedure: this language server');
const ours = await startSession({ ...server, folder });
const [openedSystem, opened] = [await ours.open(systemUri, system), await ours.open(procedureUri, procedure)];
for (const [title, edit] of [
  ['title of a step (the circuit stays equal)', edits.titleOfStep],
  ['limits of a step', edits.limitsOfStep],
  ['leads of a step', edits.leadsOfStep],
  ['`set` of a step', edits.stateOfStep],
]) {
  row(title, await edited(ours, procedureUri, edit), parse);
}
const residentMB = ours.residentMB();
const [first] = await edited(ours, procedureUri, text => edits.lastingState(text, 0), 1, 0);
row('`set` that lasts over all later sections', await edited(ours, procedureUri, edits.lastingState, 6), parse);
note(`the first of these, with all later steps on a machine that was never looked at: ${first.toFixed(0)} ms`);
row('value of a part, in the system file', await edited(ours, systemUri, edits.valueOfPart, 6), parse);
row('opening it, all readings solved anew', [opened.allMs], parse);
note(
  `${openedSystem.count + opened.count} findings; memory ${residentMB.toFixed(0)} MB after the edits of steps, ${ours.residentMB().toFixed(0)} MB at the end`,
);
await ours.stop();

heading('The same edits: a general-purpose language server with our schema');
const program = peerProgram(path.join(artifacts, 'peer'));
if (program) {
  const schema = pathToFileURL(path.join(root, 'schemas/procedure.schema.json')).href;
  const peer = await startSession({ program, folder, settings: peerSettings(schema) });
  const first = await peer.open(procedureUri, procedure);
  row('title of a step', await edited(peer, procedureUri, edits.titleOfStep), parse);
  row('limits of a step', await edited(peer, procedureUri, edits.limitsOfStep), parse);
  note(
    `${first.count} findings; memory ${peer.residentMB().toFixed(0)} MB; a pause that it makes after an edit is counted`,
  );
  await peer.stop();
} else note('not measured: the package could not be installed');

heading('First findings of a procedure of 30 steps, from opening it');
const examples = path.join(root, 'examples');
for (const [title, afterMs] of [
  ['as the first file that the server sees', 0],
  ['a second after the first one', 1000],
  ['three seconds after it', 3000],
]) {
  const all = [];
  for (let i = 0; i < 9; i++) all.push(await firstFindings(afterMs));
  const sorted = key => all.map(one => one[key]).sort((a, b) => a - b);
  row(title, sorted('firstMs'));
  row('  all but what walks of faults find', sorted('allMs'));
}

heading('Start');
row('language server, until it answers', await measured(5, serverStart, 1));
row(
  'extension, until it is active',
  await measured(5, () => extensionLoadMs(path.join(root, 'dist/extension.cjs')), 1),
);

heading('Circuit readings in a network of 300 elements, each solved anew');
const { circuitReads } = await bundled('circuit-reads.ts');
for (const [title, perSecond] of circuitReads())
  console.log(`  ${title.padEnd(46)}${perSecond.toFixed(0).padStart(8)} per second`);
await printOperatingPoints(await bundled('operating-points.ts'));
printTestOrders(await bundled('test-orders.ts'));
printProofs(await bundled('proofs.ts'));

console.log('\nRanges of 200 measuring steps in 4 variants of 300 parts, in ms        processor    clock');
const { plantReadings } = await bundled('plant-readings.ts');
const withOhms = ohms => system.replace(/(\n {2}E20:.*resistance: )[\d.]+ Ω/, `$1${ohms} Ω`);
for (const round of [1, 2, 3]) {
  const texts = { systemName, system: withOhms(3 + round / 10), procedure };
  const changed = Array.from({ length: 9 }, (_, i) => withOhms(3 + round / 10 + (i + 1) / 100));
  const [cold, ...again] = plantReadings(texts, 200, changed);
  const { cpuMs, wallMs } = again.sort((a, b) => a.wallMs - b.wallMs)[4];
  readingsRow(`${cold.ranges} ranges, nothing known before`, cold.cpuMs, cold.wallMs);
  readingsRow('  after one changed resistance, median of 9', cpuMs, wallMs);
}

console.log('\nReadings of machines with a fault, on circuits that have read nothing yet');
const { faultReadings } = await bundled('fault-readings.ts');
for (const round of ['first', 'warm']) {
  for (const name of ['loader', 'workboat', 'generator']) {
    const { faults, readings, cpuMs } = faultReadings(examples, name, 5);
    const title = `${name}, ${round}: ${faults} faults, ${readings} readings`;
    console.log(`  ${title.padEnd(46)}${((1000 * cpuMs) / readings).toFixed(0).padStart(8)} µs of processor time each`);
  }
}
console.log(`\nLoad ${os.loadavg()[0].toFixed(1)} after the run.`);

/** What one of the TypeScript files beside this one exports. */
async function bundled(name) {
  const built = await esbuild.build({
    entryPoints: [path.join(root, 'tests/bench', name)],
    bundle: true,
    write: false,
    platform: 'node',
    format: 'esm',
    // A package in there still asks for modules of Node by `require`.
    banner: {
      js: `import { createRequire } from 'node:module'; const require = createRequire(${JSON.stringify(import.meta.url)});`,
    },
  });
  return import(`data:text/javascript;base64,${Buffer.from(built.outputFiles[0].contents).toString('base64')}`);
}

async function edited(session, uri, edit, times = count, warmUp = Math.min(5, times)) {
  let i = 0;
  return measured(times, async () => (await session.edit(uri, edit(session.textOf(uri), i++))).ms, warmUp);
}

/** The numbers that `work` gives, in order of size; the first ones are a warm-up. */
async function measured(times, work, warmUp = Math.min(5, times)) {
  const all = [];
  for (let i = -warmUp; i < times; i++) {
    const ms = await work();
    if (i >= 0) all.push(ms);
  }
  return all.sort((a, b) => a - b);
}

/** Opens a procedure that has a branch to a name that does not exist. */
async function firstFindings(afterMs) {
  const session = await startSession(server);
  const open = (name, written = text => text) => {
    const file = path.join(examples, name);
    return session.open(pathToFileURL(file).href, written(fs.readFileSync(file, 'utf8')));
  };
  if (afterMs > 0) {
    await open('generator/will-not-crank.procedure.yaml');
    await wait(afterMs);
  }
  const found = await open('workboat/alarm-with-dry-bilge.procedure.yaml', text =>
    text.replace(/^( {6}otherwise: )\S+$/m, '$1nowhere-at-all'),
  );
  await session.stop();
  return found;
}

async function serverStart() {
  const session = await startSession(server);
  await session.stop();
  return session.startedMs;
}

function timed(work) {
  const began = performance.now();
  work();
  return performance.now() - began;
}

function heading(title) {
  console.log(
    `\n${title.padEnd(48)}  median      p95${title.startsWith('An edit') || title.startsWith('The same') ? '   of a parse' : ''}`,
  );
}

function row(title, sorted, against) {
  const at = part => sorted[Math.min(sorted.length - 1, Math.ceil(part * sorted.length) - 1)];
  const [median, p95] = [at(0.5), at(0.95)];
  const ratio = against ? `${(median / against[Math.ceil(against.length / 2) - 1]).toFixed(2)} ×`.padStart(13) : '';
  console.log(`  ${title.padEnd(46)}${median.toFixed(1).padStart(8)}${p95.toFixed(1).padStart(9)}${ratio}`);
}

function readingsRow(title, cpuMs, wallMs) {
  console.log(`  ${title.padEnd(46)}${cpuMs.toFixed(0).padStart(8)}${wallMs.toFixed(0).padStart(9)}`);
}

function note(text) {
  console.log(`  ${text}`);
}

function lines(text) {
  return text.split('\n').length.toLocaleString('en');
}

function kB(text) {
  return `${Math.round(Buffer.byteLength(text) / 1000)} kB`;
}
