import * as fs from 'node:fs';
import * as path from 'node:path';
import Mocha from 'mocha';

/**
 * The entry that the extension host calls, in the browser-hosted workbench and in a desktop VS Code alike.
 * It fails by throwing; the numbers go to the file that FAULTWALK_RESULTS names.
 */
export async function run(): Promise<void> {
  const mocha = new Mocha({ ui: 'bdd', timeout: 20_000, color: true, grep: process.env.FAULTWALK_TESTS || undefined });
  mocha.suite.emit('pre-require', globalThis as unknown as Mocha.MochaGlobals, null, mocha);
  await import('./suites.ts');

  const counts = { passed: 0, failed: 0 };
  await new Promise<void>(resolve => {
    mocha
      .run(() => resolve())
      .on('pass', () => write({ ...counts, passed: ++counts.passed }))
      .on('fail', () => write({ ...counts, failed: ++counts.failed }));
  });
  if (counts.failed > 0) throw new Error(`${counts.failed} failed`);
}

/** Written after every test, so that the numbers are there even when the editor does not come to its end. */
function write(counts: { passed: number; failed: number }): void {
  const results = process.env.FAULTWALK_RESULTS;
  if (!results) return;
  fs.mkdirSync(path.dirname(results), { recursive: true });
  fs.writeFileSync(results, JSON.stringify(counts));
}
