import { spawnSync } from 'node:child_process';

/**
 * Milliseconds in which a process of its own reads the extension and has it activated, with a stand-in for the editor that takes
 * every call and answers nothing.
 */
export function extensionLoadMs(bundle) {
  const { stdout, stderr } = spawnSync(process.execPath, ['-e', script, bundle], { encoding: 'utf8' });
  const ms = Number(stdout);
  if (stdout === '' || !Number.isFinite(ms)) throw new Error(`the extension did not become active: ${stderr}`);
  return ms;
}

const script = `
const Module = require('node:module');
const anything = () => new Proxy(class {}, {
  get: (target, key) => {
    if (key === 'prototype') return target.prototype;
    if (key === Symbol.toPrimitive) return () => '';
    if (key === Symbol.iterator) return function* () {};
    if (key === 'then') return undefined;
    if (key === 'some') return () => false;
    return (target[key] ??= anything());
  },
  set: () => true,
  apply: () => anything(),
  construct: (_, __, newTarget) =>
    new Proxy(Object.create(newTarget.prototype), { get: (made, key) => (key in made ? made[key] : anything()) }),
});
// A bundle copies a module's own names and finds all others behind them.
const names = anything();
const editor = new Proxy({}, { get: (_, key) => names[key], getPrototypeOf: () => names });
const load = Module._load;
Module._load = (name, ...rest) => (name === 'vscode' ? editor : load(name, ...rest));
const began = performance.now();
const { activate } = require(process.argv[1]);
activate({ subscriptions: [], extensionUri: anything(), extensionPath: '', globalState: anything(), workspaceState: anything() });
process.stdout.write(String(performance.now() - began));
process.exit(0);
`;
