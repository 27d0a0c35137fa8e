import { describe, expect, it } from 'vitest';
import { LineIndex } from '../../server/src/base/line-index.ts';
import { coloured } from '../../server/src/publish/paint.ts';
import type { Report, ReportedFinding } from '../../server/src/publish/report.ts';
import { reportAsText } from '../../server/src/publish/report-text.ts';

/** A report with one finding on the stretch between the two `|` of the text. */
function reportAt(marked: string, more: Partial<ReportedFinding> = {}): Report {
  const [before, meant, after] = marked.split('|') as [string, string, string];
  const lines = new LineIndex(before + meant + after);
  const range = { start: lines.position(before.length), end: lines.position(before.length + meant.length) };
  const finding = { rule: 'some-rule', severity: 'warning', message: 'Something is wrong', range, keys: [] } as const;
  return { files: [{ path: 'a.system.yaml', lines, findings: [{ ...finding, related: [], fixes: [], ...more }] }] };
}

const block = (report: Report) => reportAsText(report).split('\n\n')[0]!.split('\n');

describe('a report as text', () => {
  it('has place, severity, rule, message, reason, help, source and what is related', () => {
    const related = [
      { path: 'b.system.yaml', range: { start: { line: 3, character: 2 }, end: { line: 3, character: 4 } } },
    ];
    const report = reportAt('one:\n  |two|: three\n', {
      detail: 'The first reason.\nThe second.',
      help: 'Mend it.',
      related: related.map(one => ({ ...one, message: 'It begins here' })),
    });
    expect(reportAsText(report)).toBe(
      [
        'a.system.yaml:2:3 warning some-rule',
        '  Something is wrong',
        '  The first reason.',
        '  The second.',
        '  help: Mend it.',
        '    2 |   two: three',
        '      |   ^^^',
        '  b.system.yaml:4:3: It begins here',
        '',
        '1 finding in 1 of 1 file: 1 warning',
        '',
      ].join('\n'),
    );
  });

  it.each([
    ['a tab before the mark', '\t|x|: 1', ['    1 | \tx: 1', '      | \t^']],
    ['a place without width', 'key:||', ['    1 | key:', '      |     ^']],
    ['a place over several lines', '|key:\n  more: 1|\n', ['    1 | key:', '      | ^^^^']],
    ['carriage returns', 'one: 1\r\n|two|: 2\r\n', ['    2 | two: 2', '      | ^^^']],
    // The mark counts characters as a reader does; the column counts UTF-16 code units as editors do.
    ['characters beyond the basic plane', '🔧🔧: |x|', ['    1 | 🔧🔧: x', '      |     ^']],
    ['a blank line', '||\nkey: 1', []],
  ])('marks %s', (_, text, source) => {
    expect(block(reportAt(text)).slice(2)).toEqual(source);
  });

  it('counts columns in UTF-16 code units', () => {
    expect(block(reportAt('🔧🔧: |x|'))[0]).toBe('a.system.yaml:1:7 warning some-rule');
  });

  it('shows a very long line around the mark only', () => {
    const [, , source, mark] = block(reportAt(`${'a'.repeat(5000)}|bad|${'c'.repeat(5000)}`));
    expect(source).toBe(`    1 | …${'a'.repeat(40)}bad${'c'.repeat(77)}…`);
    expect(mark).toBe(`      | ${' '.repeat(41)}^^^`);
  });

  it('lets nothing of a file steer the terminal', () => {
    const text = reportAsText(reportAt('|x\u001b[2Jy|: \u202etxt', { message: 'No \u001b]0;name\u0007 here' }));
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these characters are what is looked for.
    expect(text).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e]/);
    expect(text).toContain('No ·]0;name· here');
  });

  it('colours the severity and nothing that a file says', () => {
    const text = reportAsText(reportAt('|x|: 1'), coloured);
    expect(text).toContain('\u001b[1ma.system.yaml:1:1\u001b[0m \u001b[33mwarning\u001b[0m some-rule\n  Something');
  });

  it('counts each severity', () => {
    const [file] = reportAt('|x|: 1').files;
    const finding = file!.findings[0]!;
    const severities = ['error', 'error', 'warning', 'information', 'hint', 'hint'] as const;
    const clean = { ...file!, path: 'b.system.yaml', findings: [] };
    const files = [{ ...file!, findings: severities.map(severity => ({ ...finding, severity })) }, clean];
    expect(reportAsText({ files }).trimEnd().split('\n\n').at(-1)).toBe(
      '6 findings in 1 of 2 files: 2 errors, 1 warning, 1 for information, 2 hints',
    );
    expect(reportAsText({ files: [clean] })).toBe('No findings in 1 file\n');
  });
});
