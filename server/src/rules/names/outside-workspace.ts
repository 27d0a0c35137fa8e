import { resolveFile } from '../../analysis/resolve.ts';
import type { Rule } from '../rule.ts';
import { name } from '../wording.ts';
import { namedFiles } from './named-files.ts';

export const outsideWorkspace: Rule = {
  id: 'outside-workspace',
  severity: 'error',
  group: 'names',
  on: 'any',
  title: 'A file that is not in the folders at hand',
  explanation: `
Here stands an address, or the name of a file that lies outside the folders that are open. Nothing is fetched from elsewhere: what a procedure depends on lies in the
same folder or near it, so that it is reviewed and kept together with it.

Copy the file into the folder and name it as seen from this file.`,
  bad: `
format: 1
procedure: lamp-dark
applies to: { "https://example.org/lamp.system.yaml": all }
#             ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ error outside-workspace: \`https://example.org/lamp.system.yaml\` is no file in these folders
starts from: [{ symptom: lamp stays dark }]
start: look
steps:
  look: { inspect: [W4], then: { damage found: ask-the-maker, all sound: not-found } }
endings:
  ask-the-maker: { refer: Ask the maker }
  not-found: { no fault: The lamp is bright }
`,
  good: `
format: 1
procedure: lamp-dark
applies to: { lamp.system.yaml: all }
starts from: [{ symptom: lamp stays dark }]
start: look
steps:
  look: { inspect: [W4], then: { damage found: ask-the-maker, all sound: not-found } }
endings:
  ask-the-maker: { refer: Ask the maker }
  not-found: { no fault: The lamp is bright }
`,
  *check(view) {
    for (const { ref } of namedFiles(view)) {
      const uri = resolveFile(view.uri, ref.text);
      if (ref.text.trim() === '' || (uri !== undefined && view.whereabouts(uri) !== 'outside')) continue;
      yield {
        rule: 'outside-workspace',
        place: ref.place,
        message: `${name(ref.text, 60)} is no file in these folders`,
        detail: 'Files are named as seen from the folder of this file, and nothing is fetched from elsewhere.',
        help: 'Copy the file into the folder and name it there.',
      };
    }
  },
};
