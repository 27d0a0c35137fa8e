/**
 * Writes into `package.json` one setting for each rule, taken from the records of the rules.
 *
 *   node client/generate.mjs [--check]     --check only compares, and fails where something is stale
 */
import { spawnSync } from 'node:child_process';
import * as fs from 'node:fs';
import { readRules } from './rules.mjs';

const file = new URL('../package.json', import.meta.url);
const before = fs.readFileSync(file, 'utf8');
const manifest = JSON.parse(before);
const section = manifest.contributes.configuration.find(({ title }) => title === 'Rules');
section.properties['faultwalk.rules'].properties = Object.fromEntries((await readRules()).map(settingOf));

if (!process.argv.includes('--check')) {
  fs.writeFileSync(file, JSON.stringify(manifest));
  spawnSync('npx', ['biome', 'format', '--write', 'package.json'], { cwd: new URL('..', import.meta.url) });
} else if (JSON.stringify(JSON.parse(before)) !== JSON.stringify(manifest)) {
  console.log('The settings in package.json do not fit the rules; run `node client/generate.mjs`');
  process.exitCode = 1;
}

function settingOf({ id, title, severity }) {
  const setting = {
    type: 'string',
    enum: ['error', 'warning', 'information', 'off'],
    default: severity === 'hint' ? 'information' : severity,
    markdownDescription: `${title}. [What it means](command:faultwalk.showRulePage?%5B%22${id}%22%5D)`,
  };
  return [id, setting];
}
