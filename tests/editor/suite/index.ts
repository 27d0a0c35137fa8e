import * as fs from 'node:fs';
import * as path from 'node:path';
import Mocha from 'mocha';

/**
 * The entry that the extension host calls, in the browser-hosted workbench and in a desktop VS Code alike.
 * It fails by throwing; the results go to the file that FAULTWALK_RESULTS names.
 */
export async function run(): Promise<void> {
  const mocha = new Mocha({ ui: 'bdd', timeout: 20_000, color: true, grep: process.env.FAULTWALK_TESTS || undefined });
  mocha.suite.emit('pre-require', globalThis as unknown as Mocha.MochaGlobals, null, mocha);
  await import('./suites.ts');

  const results: Results = { passed: 0, failed: 0, failures: [] };
  await new Promise<void>(resolve => {
    mocha
      .run(() => resolve())
      .on('pass', () => {
        results.passed++;
        write(results);
      })
      .on('fail', (test, error) => {
        results.failed++;
        results.failures.push(`${test.fullTitle()}\n${error.message}`);
        write(results);
      });
  });
  if (results.failed > 0) throw new Error(`${results.failed} failed`);
}

interface Results {
  passed: number;
  failed: number;
  failures: string[];
}

/** Written after every test, so that the results are there even when the editor does not come to its end. */
function write(results: Results): void {
  const file = process.env.FAULTWALK_RESULTS;
  if (!file) return;
  fs.mkdirSync(path.dirname(file), { recursive: true });
  fs.writeFileSync(file, JSON.stringify(results));
}
