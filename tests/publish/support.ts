import type { Report } from '../../server/src/publish/report.ts';
import { reportedFile } from '../../server/src/publish/report.ts';
import { checkFile } from '../../server/src/rules/run.ts';
import { parseFixture } from '../support/fixture.ts';
import { viewsOf } from '../support/workspace.ts';

/** The report on the files of a fixture, under the names that `path` gives them; else in the folder `file:///`. */
export function reportOn(source: string, path = (uri: string) => uri.replace('file:///', '')): Report {
  const { files, behind } = parseFixture(source);
  const view = viewsOf([...files.map(f => [f.uri, f.text] as const), ...behind]);
  return { files: files.map(({ uri }) => reportedFile(view(uri)!, checkFile(view(uri)!), { view, path })) };
}
