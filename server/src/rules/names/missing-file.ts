import type { ProcedureView, SamplesView } from '../../analysis/view.ts';
import type { Finding } from '../../base/finding.ts';
import type { Ref } from '../../base/place.ts';
import { fileKindOf } from '../../schema/root.ts';
import type { Rule } from '../rule.ts';
import { name } from '../wording.ts';

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
  check(view) {
    if (view.kind === 'procedure') return inProcedure(view);
    return view.kind === 'samples' ? inSamples(view) : [];
  },
};

function* inProcedure({ procedure, systems }: ProcedureView): Generator<Finding> {
  const found = [...systems.values()];
  // Two names of one file are one system, and then the two lists do not run side by side.
  if (found.length !== procedure.appliesTo.length) return;
  for (const [i, { file }] of procedure.appliesTo.entries()) if (!found[i]) yield finding(file, 'system');
}

function* inSamples({ samples, procedure }: SamplesView): Generator<Finding> {
  if (samples.of && !procedure) yield finding(samples.of, 'procedure');
}

function finding(file: Ref, kind: 'system' | 'procedure'): Finding {
  const isOther = fileKindOf(file.text) !== kind;
  return {
    rule: 'missing-file',
    place: file.place,
    message: isOther ? `${name(file.text)} is no ${kind} file` : `There is no file ${name(file.text, 60)}`,
    detail: isOther
      ? `The name of a ${kind} file ends in \`.${kind}.yaml\`.`
      : 'The name is read as seen from the folder of this file. Nothing that depends on it is checked.',
    help: isOther ? `Name a file that ends in \`.${kind}.yaml\`.` : 'Correct the name, or write the file.',
  };
}
