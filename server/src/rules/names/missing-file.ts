import { resolveFile } from '../../analysis/resolve.ts';
import type { Finding } from '../../base/finding.ts';
import type { Ref } from '../../base/place.ts';
import { fileKindOf } from '../../schema/root.ts';
import type { Rule } from '../rule.ts';
import { name } from '../wording.ts';
import { type NamedFile, namedFiles } from './named-files.ts';

export const missingFile: Rule = {
  id: 'missing-file',
  severity: 'error',
  group: 'names',
  on: 'any',
  title: 'A file that is not there',
  explanation: `
The file named here does not exist beside this one, or it is of another kind. Without it nothing that stands in it can be checked:
names, variants and what the circuit shows.

Correct the name. It is written as seen from the folder of this file: \`loader-aux.system.yaml\`, \`../shared/power.system.yaml\`.`,
  bad: `
format: 1
procedure: lamp-dark
applies to: { lamps.system.yaml: all }
#             ^^^^^^^^^^^^^^^^^ error missing-file: There is no file \`lamps.system.yaml\`
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
    for (const { ref, kind } of namedFiles(view)) {
      const uri = resolveFile(view.uri, ref.text);
      if (uri === undefined) continue;
      if (fileKindOf(uri) !== kind) yield otherKind(ref, kind);
      else if (view.whereabouts(uri) === 'absent') yield missing(ref);
      else if (view.whereabouts(uri) === 'too large') yield tooLarge(ref);
    }
  },
};

function missing(ref: Ref): Finding {
  return {
    rule: 'missing-file',
    place: ref.place,
    message: `There is no file ${name(ref.text, 60)}`,
    detail: 'The name is read as seen from the folder of this file. Nothing that depends on it is checked.',
    help: 'Correct the name, or write the file.',
  };
}

function tooLarge(ref: Ref): Finding {
  return {
    rule: 'missing-file',
    place: ref.place,
    message: `The file ${name(ref.text, 50)} is too large to be read`,
    detail: 'Files of more than ten million characters are not read. Nothing that depends on it is checked.',
    help: 'Divide it into smaller files.',
  };
}

function otherKind(ref: Ref, kind: NamedFile['kind']): Finding {
  return {
    rule: 'missing-file',
    place: ref.place,
    message: `${name(ref.text, 50)} is no ${kind} file`,
    detail: `The name of a ${kind} file ends in \`.${kind}.yaml\`, and only such a file can stand here.`,
    help: `Name a file that ends in \`.${kind}.yaml\`.`,
  };
}
