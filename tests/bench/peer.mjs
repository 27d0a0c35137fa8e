import { spawnSync } from 'node:child_process';
import * as fs from 'node:fs';
import * as path from 'node:path';

const wanted = 'yaml-language-server@1.19.2';

/**
 * A general-purpose language server for YAML, to measure beside ours. It is installed into a folder of its own on first use,
 * for nothing else here needs it; nothing where it cannot be had.
 */
export function peerProgram(folder) {
  const program = path.join(folder, 'node_modules/yaml-language-server/out/server/src/server.js');
  if (!fs.existsSync(program)) {
    fs.mkdirSync(folder, { recursive: true });
    fs.writeFileSync(path.join(folder, 'package.json'), '{ "private": true }\n');
    console.log(`Installing ${wanted} into ${folder}, for this measurement alone`);
    spawnSync('npm', ['install', '--ignore-scripts', '--no-audit', '--no-fund', '--silent', wanted], { cwd: folder });
  }
  return fs.existsSync(program) ? program : undefined;
}

export function peerSettings(schema) {
  return {
    yaml: {
      validate: true,
      hover: false,
      completion: false,
      schemas: { [schema]: '*.procedure.yaml' },
      schemaStore: { enable: false },
    },
    http: { proxy: '', proxyStrictSSL: false },
  };
}
