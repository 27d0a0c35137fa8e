import { systemsByName } from './systems.ts';

/** One or more files as an author would write them, with marks for what must be found in them. */
export interface Fixture {
  /** The files written in the fixture, in order. */
  readonly files: readonly MarkedFile[];
  /** Ready-made systems that the files name, by uri. */
  readonly behind: ReadonlyMap<string, string>;
  readonly cursor?: { readonly uri: string; readonly offset: number };
}

export interface MarkedFile {
  readonly uri: string;
  /** Without the marks. */
  readonly text: string;
  readonly marks: readonly Mark[];
}

/** A finding as the marks show it. Columns count from 0; a mark for the whole file has neither line nor columns. */
export interface Mark {
  readonly line?: number;
  readonly start: number;
  readonly end: number;
  readonly severity: string;
  readonly rule: string;
  readonly message: string;
  readonly hasFix: boolean;
}

/**
 * Reads a fixture. A line `#- /name.procedure.yaml` begins a file; without one the file is named by its first key.
 * `#   ^^^ error some-rule: First line of the message [fix]` marks columns of the line above, `#<--- …` its first columns, each
 * sign one column with the `#`, and `#! …` the whole file. `[fix]` says that a quick fix is offered. `$0` is the cursor.
 */
export function parseFixture(source: string): Fixture {
  const files: MarkedFile[] = [];
  let cursor: Fixture['cursor'];
  for (const { name, lines } of sections(source)) {
    const marks: Mark[] = [];
    const kept: string[] = [];
    for (const line of lines) {
      const mark = parseMark(line, kept.length - 1);
      if (mark) marks.push(mark);
      else kept.push(line);
    }
    const marked = kept.join('\n');
    const uri = uriOf(name ?? nameOf(marked));
    const offset = marked.indexOf('$0');
    if (offset >= 0) cursor = { uri, offset };
    files.push({ uri, text: marked.replace('$0', ''), marks: marks.sort(byPlace) });
  }
  const text = files.map(f => f.text).join('\n');
  const named = [...systemsByName].map(([name, system]) => [uriOf(`/${name}`), name, system] as const);
  const behind = named.filter(([uri, name]) => text.includes(name) && !files.some(f => f.uri === uri));
  return { files, cursor, behind: new Map(behind.map(([uri, , system]) => [uri, system])) };
}

/** The file with marks written into it, to be compared as a whole. */
export function withMarks({ uri, text }: Pick<MarkedFile, 'uri' | 'text'>, marks: readonly Mark[]): string {
  const lines = text.split(/\r?\n/);
  const sorted = [...marks].sort(byPlace);
  const whole = sorted.filter(m => m.line === undefined).map(m => `#! ${told(m)}`);
  const marked = lines.flatMap((line, i) => [line, ...sorted.filter(m => m.line === i).map(written)]);
  return [`#- ${uri.slice('file://'.length)}`, ...whole, ...marked].join('\n');
}

function written(mark: Mark): string {
  const { start, end } = mark;
  if (start === 0) return `#<${'-'.repeat(Math.max(0, end - 2))} ${told(mark)}`;
  return `#${' '.repeat(start - 1)}${'^'.repeat(Math.max(1, end - start))} ${told(mark)}`;
}

function told({ severity, rule, message, hasFix }: Mark): string {
  return `${severity} ${rule}: ${message}${hasFix ? ' [fix]' : ''}`;
}

function parseMark(text: string, line: number): Mark | undefined {
  const found = /^(#(?: *\^+|<-*|!)) (error|warning|information|hint) ([a-z-]+): (.*?)( \[fix\])?$/.exec(text);
  if (!found) return undefined;
  const [, sign = '', severity = '', rule = '', message = '', fix] = found;
  const finding = { severity, rule, message, hasFix: fix !== undefined };
  if (sign === '#!') return { ...finding, start: 0, end: 0 };
  const first = sign.indexOf('^');
  return { ...finding, line, start: Math.max(0, first), end: sign.length };
}

function sections(source: string): { name?: string; lines: string[] }[] {
  const found: { name?: string; lines: string[] }[] = [];
  for (const line of source.replace(/^\n/, '').split('\n')) {
    const name = /^#- (\/\S+)$/.exec(line)?.[1];
    if (name !== undefined) found.push({ name, lines: [] });
    else if (found.length === 0) found.push({ lines: [line] });
    else found.at(-1)!.lines.push(line);
  }
  return found;
}

function nameOf(text: string): string {
  if (/^system:/m.test(text)) return '/example.system.yaml';
  return /^samples of:/m.test(text) ? '/example.samples.yaml' : '/example.procedure.yaml';
}

export function uriOf(path: string): string {
  return `file://${path}`;
}

function byPlace(a: Mark, b: Mark): number {
  return (a.line ?? -1) - (b.line ?? -1) || a.start - b.start || a.end - b.end || (a.rule < b.rule ? -1 : 1);
}
