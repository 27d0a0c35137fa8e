/** What the README shows is what a reader gets. */
import * as fs from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type Report, reportedFile } from '../server/src/publish/report.ts';
import { reportAsText } from '../server/src/publish/report-text.ts';
import { checkFile } from '../server/src/rules/run.ts';
import { uriOf } from './support/fixture.ts';
import { workspaceOf } from './support/workspace.ts';

const readme = fs.readFileSync('README.md', 'utf8');
const files = [
  ...readme.matchAll(/^`([\w-]+\.(?:system|procedure|samples)\.yaml)`[^`]*\n\n```yaml\n([\s\S]*?)^```/gm),
].map(([, name = '', text = '']) => [name, text] as const);

describe('the README', () => {
  it('shows the report that its files give', () => {
    const shown = /^```text\n([\s\S]*?)^```/m.exec(readme)?.[1];
    expect(reportAsText(reportOn(files))).toBe(shown);
  });

  it('shows files that are clean with the limits that it names', () => {
    const better = /^With `(limits: .*)` nothing is left to say/m.exec(readme)?.[1];
    expect(better).toBeDefined();
    const mended = files.map(([name, text]) => [name, text.replace(/limits: .*/, better!)] as const);
    expect(reportAsText(reportOn(mended))).toBe('No findings in 3 files\n');
  });

  it('names nothing that is not there', () => {
    const links = [...readme.matchAll(/\]\(([^)#:]+)(?:#[\w-]+)?\)/g)].map(([, target = '']) => target);
    expect(links.length).toBeGreaterThan(3);
    expect(links.filter(target => !fs.existsSync(target))).toEqual([]);
    const { scripts } = JSON.parse(fs.readFileSync('package.json', 'utf8'));
    const run = [...readme.matchAll(/\bnpm (?:run )?(test|try|[a-z]+)\b/g)].map(([, script = '']) => script);
    expect(run.filter(script => script !== 'ci' && !(script in scripts))).toEqual([]);
  });
});

function reportOn(files: readonly (readonly [name: string, text: string])[]): Report {
  const workspace = workspaceOf(files.map(([name, text]) => [uriOf(`/${name}`), text] as const));
  const named = { view: (uri: string) => workspace.view(uri), path: (uri: string) => uri.replace('file:///', '') };
  const sorted = files.map(([name]) => name).toSorted();
  return {
    files: sorted.map(name => {
      const view = workspace.view(uriOf(`/${name}`))!;
      return reportedFile(view, checkFile(view), named);
    }),
  };
}
