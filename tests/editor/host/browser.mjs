/** Finds a browser of the Chromium family to show the workbench in, and starts it. */
import { spawnSync } from 'node:child_process';
import * as fs from 'node:fs';
import { createRequire } from 'node:module';
import * as path from 'node:path';
import { chromium } from 'playwright-core';
import { hostDir } from './setup.mjs';

const quietly = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** Starts the browser without a window; throws a sentence for the reader when there is none. */
export async function openBrowser() {
  const executablePath = await findBrowser();
  if (executablePath === undefined) {
    throw new Error(
      'No browser of the Chromium family was found; install one, or name its program in FAULTWALK_BROWSER',
    );
  }
  return chromium.launch({ executablePath, headless: true, args: quietly });
}

/** In this order: the one the reader names, one that the machine has, the one that the registry carries. */
export async function findBrowser() {
  const named = process.env.FAULTWALK_BROWSER;
  if (named !== undefined && named !== '') return named;
  return candidates().find(file => fs.existsSync(file)) ?? packaged();
}

function candidates() {
  const names = ['google-chrome', 'google-chrome-stable', 'chromium', 'chromium-browser', 'microsoft-edge', 'chrome'];
  const onPath = (process.env.PATH ?? '').split(path.delimiter).flatMap(dir => names.map(name => path.join(dir, name)));
  const mac = ['Google Chrome', 'Chromium', 'Microsoft Edge'].map(
    name => `/Applications/${name}.app/Contents/MacOS/${name}`,
  );
  return [...onPath, ...mac];
}

/** A package that carries a browser of its own, for Linux machines without one and without the right to install one. */
async function packaged() {
  if (process.platform !== 'linux' || process.arch !== 'x64') return undefined;
  const dir = path.join(hostDir, 'browser');
  if (!fs.existsSync(path.join(dir, 'node_modules/@sparticuz/chromium'))) {
    fs.mkdirSync(dir, { recursive: true });
    fs.writeFileSync(path.join(dir, 'package.json'), '{ "private": true }\n');
    const npm = spawnSync('npm', ['install', '--no-save', '--no-audit', '--no-fund', '@sparticuz/chromium@147.0.0'], {
      cwd: dir,
      encoding: 'utf8',
    });
    if (npm.status !== 0) return undefined;
  }
  const { default: carried } = await import(createRequire(path.join(dir, 'x.js')).resolve('@sparticuz/chromium'));
  return carried.executablePath();
}
