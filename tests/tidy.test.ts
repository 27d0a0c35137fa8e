/** Holds the tree against what `DEVELOPERS.md` promises. Each failure is a sentence that says which file breaks which promise. */
import * as fs from 'node:fs';
import { isBuiltin } from 'node:module';
import * as path from 'node:path';
import { fileURLToPath } from 'node:url';
import { globSync } from 'tinyglobby';
import { describe, expect, it } from 'vitest';

const root = path.resolve(fileURLToPath(import.meta.url), '../..');
const developers = read('DEVELOPERS.md');
const code = find('{client,server,tests}/**/*.{ts,mts,mjs,js,css}');
const sources = find('{client,server}/**/*.ts').map(file => ({ file, text: read(file), imports: importsOf(file) }));
const table = readTable();

/** One check for each sentence marked **Invariant** in `DEVELOPERS.md`, under the words that stand there. */
const invariants: Record<string, () => string[]> = {
  'No room imports one that the table does not allow it, and there are no import circles.': () => [
    ...sources.flatMap(({ file, imports }) =>
      imports
        .filter(target => isOurs(target) && !mayImport(roomOf(file), roomOf(target)))
        .map(target => `${file} imports ${target}, but ${roomOf(file)} may not use ${roomOf(target)}`),
    ),
    ...circles().map(circle => `these files import one another in a circle: ${circle.join(' → ')}`),
  ],
  'Only `disk`, `lsp` and `cli` touch files or `node:*`; the core runs in a browser worker unchanged.': () =>
    inCore((file, target) => isBuiltin(target) && `${file} imports ${target}, which a browser does not have`),
  'Only `syntax` imports `yaml`; only `lsp` knows LSP.': () =>
    sources.flatMap(({ file, imports }) =>
      imports.flatMap(target => {
        if (target === 'yaml' && roomOf(file) !== 'syntax') return [`${file} imports yaml, which only syntax knows`];
        const lsp = /^vscode-(languageserver|jsonrpc)/.test(target);
        return lsp && roomOf(file) !== 'lsp' ? [`${file} imports ${target}, which only lsp knows`] : [];
      }),
    ),
  'The circuit never knows a name of the model: its elements carry opaque ids.': () =>
    sources
      .filter(({ file }) => roomOf(file) === 'circuit')
      .flatMap(({ file, imports }) =>
        imports
          .filter(target => ['model', 'schema', 'syntax', 'analysis'].includes(roomOf(target)))
          .map(target => `${file} imports ${target}, so the circuit knows the model`),
      ),
  'Ideal joins are merged nodes, never tiny resistances.': () =>
    sources
      .filter(({ file }) => ['circuit', 'analysis'].includes(roomOf(file)))
      .flatMap(({ file, text }) =>
        [...text.matchAll(/\b\w*(?:ohms|Ohms|resistance)\w*\s*[:=]\s*(?:0?\.000\d+|\d+(?:\.\d+)?e-[3-9])/g)].map(
          ([found]) => `${file} stands a tiny resistance in for a join: ${found}`,
        ),
      ),
  'The client takes nothing from the server but `server/src/protocol`.': () =>
    sources
      .filter(({ file }) => file.startsWith('client/'))
      .flatMap(({ file, imports }) =>
        imports
          .filter(target => target.startsWith('server/') && roomOf(target) !== 'protocol')
          .map(target => `${file} imports ${target}; the client takes only server/src/protocol`),
      ),
  'The view of a panel only draws: from beyond the views it takes types alone, and its style has no colour of its own.':
    () => [
      ...sources
        .filter(({ file }) => /^client\/\w+\/view\//.test(file))
        .flatMap(({ file, text }) =>
          [...text.matchAll(/^import (?!type\b).* from '(\.\.\/.*)';$/gm)].flatMap(([, target]) =>
            target!.includes('/view/') ? [] : [`${file} takes more than types from ${target}`],
          ),
        ),
      ...find('client/**/*.css').flatMap(file =>
        [
          ...read(file).matchAll(
            /#[\da-f]{3,8}\b|\b(?:rgb|hsl|hwb|lab|lch|oklab|oklch|color)a?\(|\b(?:black|white|red|gr[ae]y)\b/gi,
          ),
        ].map(([found]) => `${file} has a colour of its own: ${found}`),
      ),
    ],
  'No file is longer than 500 lines.': () =>
    code
      .filter(file => !file.includes('.generated.'))
      .map(file => ({ file, lines: read(file).split('\n').length - 1 }))
      .filter(({ lines }) => lines > 500)
      .map(({ file, lines }) => `${file} has ${lines} lines; split it by what its parts mean`),
  "Nothing executes or fetches anything named in a user's file.": () =>
    sources
      .filter(({ file }) => file.startsWith('server/'))
      .flatMap(({ file, text, imports }) => [
        ...imports
          .filter(target => /^(node:)?(child_process|cluster|http|https|http2|net|tls|dgram|vm)$/.test(target))
          .map(target => `${file} imports ${target}, which can execute or fetch`),
        ...[...text.matchAll(/\b(eval|fetch)\(|\bnew Function\b|\bimport\((?!['"])/g)].map(
          ([found]) => `${file} says ${found}, which can execute or fetch`,
        ),
      ]),
};

describe('the invariants of DEVELOPERS.md', () => {
  const promised = [...developers.matchAll(/^- \*\*Invariant\*\* (.+)$/gm)].map(match => match[1]!);

  it('are each checked here, in the same words', () => {
    expect(Object.keys(invariants).sort()).toEqual([...promised].sort());
  });
  for (const [sentence, violations] of Object.entries(invariants)) {
    it(sentence, () => expect(violations()).toEqual([]));
  }
});

describe('the tree', () => {
  it('has nothing at its top beside the rooms and what tools insist on', () => {
    const rooms = ['client', 'server', 'schemas', 'examples', 'tests'];
    const files = ['README.md', 'DEVELOPERS.md', 'CHANGELOG.md', 'LICENSE'];
    const tools = ['package.json', 'package-lock.json', 'tsconfig.json', 'biome.json', 'node_modules', 'dist'];
    const allowed = [...rooms, ...files, ...tools];
    const found = fs.readdirSync(root).filter(name => !name.startsWith('.') && !name.endsWith('.vsix'));
    expect(found.filter(name => !allowed.includes(name))).toEqual([]);
  });

  it('leaves nothing for later', () => {
    // The words are put together here, so that this file does not find itself.
    const later = new RegExp(`\\b(${['TO' + 'DO', 'FIX' + 'ME', 'X' + 'XX', 'not ' + 'implemented'].join('|')})\\b`);
    expect(code.filter(file => later.test(read(file)))).toEqual([]);
  });

  it('leaves no test out', () => {
    const leftOut = new RegExp(`\\b(it|test|describe)\\.(${['sk' + 'ip', 'on' + 'ly', 'to' + 'do'].join('|')})\\b`);
    expect(code.filter(file => leftOut.test(read(file)))).toEqual([]);
  });

  it('knows every room that stands in it', () => {
    const rooms = [...new Set(sources.map(({ file }) => roomOf(file)))];
    expect(rooms.filter(room => !table.has(room))).toEqual([]);
  });
});

/** The rooms of the table in `DEVELOPERS.md`, in its order, each with the rooms that it may import. */
function readTable(): Map<string, Set<string>> {
  const rows = [...developers.matchAll(/^\| (`(?:server|client)[^|]*) \|[^|]*\| ([^|]+) \|$/gm)];
  const allowed = new Map<string, Set<string>>();
  for (const row of rows) {
    const above = [...allowed.keys()];
    const rooms = [...row[1]!.matchAll(/`(?:server\/src\/)?(\w+)`/g)].map(match => match[1]!);
    for (const room of rooms) allowed.set(room, roomsIn(row[2]!, above));
  }
  return allowed;
}

/** Reads a cell such as `analysis and below, rules`, where "below" is whatever stands above it in the table. */
function roomsIn(cell: string, above: string[]): Set<string> {
  const words = cell.replaceAll('`', '').split(', ');
  return new Set(
    words.flatMap(word => {
      if (word === 'nothing') return [];
      if (word === 'everything') return [...above, 'protocol'];
      if (word === 'all above') return above;
      const upTo = / and below$/.test(word) ? word.replace(/ and below$/, '') : undefined;
      if (upTo !== undefined) return above.slice(0, above.indexOf(upTo) + 1);
      return [word.replace('server/src/', '')];
    }),
  );
}

function mayImport(from: string, to: string): boolean {
  return from === to || table.get(from)?.has(to) === true;
}

/** The room that a file stands in: the folder under `server/src`, else the folder at the top. */
function roomOf(file: string): string {
  const parts = file.split('/');
  return file.startsWith('server/src/') ? parts[2]! : parts[0]!;
}

function inCore(violation: (file: string, target: string) => string | false): string[] {
  return sources
    .filter(({ file }) => file.startsWith('server/') && !['disk', 'lsp', 'cli'].includes(roomOf(file)))
    .flatMap(({ file, imports }) => imports.map(target => violation(file, target)).filter(found => found !== false));
}

/** What a file imports: a path from the root for files of ours, the bare name for packages. */
function importsOf(file: string): string[] {
  const text = read(file).replace(/\/\*[\s\S]*?\*\/|^\s*\/\/.*$/gm, '');
  const found = [...text.matchAll(/(?:\bfrom|\bimport)\s*\(?\s*'([^']+)'/g)].map(match => match[1]!);
  return found.map(target => (target.startsWith('.') ? path.posix.join(path.posix.dirname(file), target) : target));
}

function isOurs(target: string): boolean {
  return /^(client|server)\//.test(target);
}

/** Each circle once, found by walking the imports depth first and looking for a file on the way already taken. */
function circles(): string[][] {
  const imports = new Map(sources.map(source => [source.file, source.imports.filter(isOurs)]));
  const found: string[][] = [];
  const done = new Set<string>();
  const way: string[] = [];
  const walk = (file: string): void => {
    const at = way.indexOf(file);
    if (at >= 0) found.push([...way.slice(at), file]);
    if (at >= 0 || done.has(file)) return;
    way.push(file);
    for (const target of imports.get(file) ?? []) walk(target);
    way.pop();
    done.add(file);
  };
  for (const { file } of sources) walk(file);
  return found;
}

function find(pattern: string): string[] {
  return globSync(pattern, { cwd: root, ignore: ['**/node_modules/**', '**/dist/**'] }).sort();
}

function read(file: string): string {
  return fs.readFileSync(path.join(root, file), 'utf8');
}
