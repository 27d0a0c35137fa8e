import { expect } from 'vitest';
import type { FileView } from '../../server/src/analysis/view.ts';
import type { Finding } from '../../server/src/base/finding.ts';
import { LineIndex } from '../../server/src/base/line-index.ts';
import { checkFile, type FoundFinding } from '../../server/src/rules/run.ts';
import { type Fixture, type Mark, parseFixture, withMarks } from './fixture.ts';
import { viewsOf } from './workspace.ts';

/**
 * The complete set of findings in each file of the fixture must be the marked one: with line feeds, with carriage returns, and behind
 * a comment with characters beyond the basic plane. A failure shows the fixture with the actual marks.
 */
export function diagnostics(source: string): void {
  const fixture = parseFixture(source);
  for (const [way, change] of Object.entries(ways)) {
    const changed = fixture.files.map(f => ({ ...f, text: change(f.text) }));
    const found = findingsIn({ ...fixture, files: changed });
    for (const [i, file] of fixture.files.entries()) {
      const shift = way === 'with non-ASCII text' ? 1 : 0;
      const marks = found[i]!.map(each => shifted(markOf(changed[i]!.text, each), shift));
      expect(withMarks(file, marks), way).toBe(withMarks(file, file.marks));
    }
  }
}

const ways: Record<string, (text: string) => string> = {
  'with line feeds': text => text,
  'with carriage returns': text => text.replaceAll('\n', '\r\n'),
  'with non-ASCII text': text => `# Prüfung 🔧 für Ω und µ\n${text}`,
};

function shifted(mark: Mark, lines: number): Mark {
  return mark.line === undefined ? mark : { ...mark, line: mark.line - lines };
}

interface Placed {
  readonly finding: FoundFinding;
  readonly start: number;
  readonly end: number;
}

/** What is found in each file of a fixture, in its order, with offsets into the file. */
export function findingsIn(fixture: Fixture): readonly (readonly Placed[])[] {
  const views = viewsOf([...fixture.files.map(f => [f.uri, f.text] as const), ...fixture.behind]);
  return fixture.files.map(({ uri }) => {
    const view = views(uri)!;
    return checkFile(view).map(finding => ({ finding, ...view.tree.absolute(finding.place.span) }));
  });
}

/** The view of the first file of a fixture. */
export function viewOf(source: string): FileView {
  const { files, behind } = parseFixture(source);
  return viewsOf([...files.map(f => [f.uri, f.text] as const), ...behind])(files[0]!.uri)!;
}

/** The fix of that title, applied to the first file, must give the expected text. */
export function fix(source: string, title: string, expected: string): void {
  const fixture = parseFixture(source);
  const file = fixture.files[0]!;
  const views = viewsOf([...fixture.files.map(f => [f.uri, f.text] as const), ...fixture.behind]);
  const view = views(file.uri)!;
  const fixes = checkFile(view).flatMap(finding => finding.fixes ?? []);
  const wanted = fixes.find(f => f.title === title);
  expect(wanted, `fixes offered: ${fixes.map(f => f.title).join(', ')}`).toBeDefined();
  expect(applied(view, wanted!.edits)).toBe(expected.replace(/^\n/, ''));
}

export function applied(view: FileView, edits: NonNullable<Finding['fixes']>[number]['edits']): string {
  const inText = edits.map(({ place, text }) => ({ ...view.tree.absolute(place.span), text }));
  return inText
    .sort((a, b) => b.start - a.start)
    .reduce((text, edit) => text.slice(0, edit.start) + edit.text + text.slice(edit.end), view.tree.text);
}

export function markOf(text: string, { finding, start, end }: Placed): Mark {
  const { severity, rule, message, fixes } = finding;
  const mark = { severity, rule, message, hasFix: (fixes?.length ?? 0) > 0 };
  // The very first character stands for the file as a whole.
  if (start === 0 && end <= 1) return { ...mark, start: 0, end: 0 };
  const lines = new LineIndex(text);
  const from = lines.position(start);
  const to = lines.position(end);
  const lastColumn = to.line === from.line ? to.character : lines.lineEnd(from.line) - lines.lineStart(from.line);
  return { ...mark, line: from.line, start: from.character, end: Math.max(lastColumn, from.character + 1) };
}
