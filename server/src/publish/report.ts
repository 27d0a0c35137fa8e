import type { FileView } from '../analysis/view.ts';
import type { Finding, Severity } from '../base/finding.ts';
import { LineIndex, type Position } from '../base/line-index.ts';
import type { Place } from '../base/place.ts';
import { pathAt } from '../syntax/path.ts';
import type { SyntaxTree } from '../syntax/tree.ts';

/** What was found in the files that were asked about, in lines and characters; every form of output is written from this. */
export interface Report {
  /** Every file that was looked at, in the order of its path. */
  readonly files: readonly ReportedFile[];
}

export interface ReportedFile {
  readonly path: string;
  readonly lines: LineIndex;
  /** In the order of the text. */
  readonly findings: readonly ReportedFinding[];
}

export interface ReportedFinding {
  readonly rule: string;
  readonly severity: Severity;
  readonly message: string;
  readonly detail?: string;
  readonly help?: string;
  readonly range: Range;
  /** The keys that lead to the place, for example `steps`, `look`, `then`. */
  readonly keys: readonly string[];
  readonly related: readonly { readonly path: string; readonly range: Range; readonly message: string }[];
  readonly fixes: readonly ReportedFix[];
}

export interface ReportedFix {
  readonly title: string;
  /** One of those that `check --fix` makes. */
  readonly preferred: boolean;
  readonly edits: readonly { readonly path: string; readonly range: Range; readonly text: string }[];
}

/** Lines and UTF-16 characters, both from 0; the end is the place behind the last character. */
export interface Range {
  readonly start: Position;
  readonly end: Position;
}

/** The files that a report may speak about, and what they are called in it. */
export interface Named {
  view(uri: string): FileView | undefined;
  path(uri: string): string;
}

/** The findings of one file, with every place put in lines. Places in files that are not there are left out. */
export function reportedFile(
  view: FileView,
  findings: readonly (Finding & { readonly severity: Severity })[],
  named: Named,
): ReportedFile {
  return {
    path: named.path(view.uri),
    lines: linesOf(view),
    findings: findings.map(finding => ({
      rule: finding.rule,
      severity: finding.severity,
      message: finding.message,
      detail: finding.detail,
      help: finding.help,
      range: rangeIn(view, finding.place),
      keys: pathAt(view.tree, view.tree.absolute(finding.place.span).start).flatMap(item => item.entry?.key.text ?? []),
      related: (finding.related ?? []).flatMap(({ place, message }) => located(place, { message }, named)),
      fixes: (finding.fixes ?? []).map(({ title, preferred = false, edits }) => ({
        title,
        preferred,
        edits: edits.flatMap(({ place, text }) => located(place, { text }, named)),
      })),
    })),
  };
}

function located<T>(place: Place, more: T, named: Named): ({ path: string; range: Range } & T)[] {
  const view = named.view(place.uri);
  if (!view) return [];
  return [{ path: named.path(place.uri), range: rangeIn(view, place), ...more }];
}

function rangeIn(view: FileView, { span }: Place): Range {
  const { start, end } = view.tree.absolute(span);
  const lines = linesOf(view);
  return { start: lines.position(start), end: lines.position(end) };
}

/** The lines of a file are counted once, however many findings speak of it. */
function linesOf({ tree }: FileView): LineIndex {
  const known = counted.get(tree);
  if (known) return known;
  const lines = new LineIndex(tree.text);
  counted.set(tree, lines);
  return lines;
}

const counted = new WeakMap<SyntaxTree, LineIndex>();

export const severities: readonly Severity[] = ['error', 'warning', 'information', 'hint'];

export interface Totals extends Readonly<Record<Severity, number>> {
  readonly files: number;
  readonly filesWithFindings: number;
  readonly findings: number;
}

export function totalsOf({ files }: Report): Totals {
  const all = files.flatMap(file => file.findings);
  const count = (severity: Severity) => all.filter(finding => finding.severity === severity).length;
  return {
    files: files.length,
    filesWithFindings: files.filter(file => file.findings.length > 0).length,
    findings: all.length,
    error: count('error'),
    warning: count('warning'),
    information: count('information'),
    hint: count('hint'),
  };
}
