/**
 * Runs the same suite in a desktop VS Code. VSCODE_EXECUTABLE names an installed one; without it one is downloaded.
 *
 *   VSCODE_EXECUTABLE=/usr/share/code/code node tests/editor/run-desktop.mjs
 */
import * as path from 'node:path';
import { runTests } from '@vscode/test-electron';
import { root } from './host/setup.mjs';
import { workingCopy } from './host/workspace.mjs';

const workspace = workingCopy();
try {
  process.exitCode = await runTests({
    ...(process.env.VSCODE_EXECUTABLE ? { vscodeExecutablePath: process.env.VSCODE_EXECUTABLE } : {}),
    extensionDevelopmentPath: root,
    extensionTestsPath: path.join(root, 'dist/test/index.cjs'),
    launchArgs: [workspace.folder, '--disable-extensions', '--disable-workspace-trust', '--skip-welcome'],
  });
} catch (error) {
  console.log(error.message);
  process.exitCode = 1;
} finally {
  workspace.remove();
}
