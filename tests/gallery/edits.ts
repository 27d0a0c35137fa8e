import type { Breakage } from './edit.ts';
import { circuit } from './edits/circuit.ts';
import { conditions } from './edits/conditions.ts';
import { limits } from './edits/limits.ts';
import { names } from './edits/names.ts';
import { proof } from './edits/proof.ts';
import { safety } from './edits/safety.ts';
import { samples } from './edits/samples.ts';
import { structure } from './edits/structure.ts';
import { shape, text, values } from './edits/text.ts';

/** The gallery: one broken copy of an example for each rule, in no order that matters. */
export const breakages: readonly Breakage[] = [
  ...text,
  ...shape,
  ...values,
  ...names,
  ...structure,
  ...limits,
  ...circuit,
  ...conditions,
  ...safety,
  ...proof,
  ...samples,
];

/** Rules that have no copy, each with the reason. */
export const exempt: Readonly<Record<string, string>> = {
  'binary-content': 'a file that is not text would stand in the tree as one',
  'percent-of-temperature': 'no example reads a temperature',
  'ohmmeter-at-pyrotechnic': 'no example has an igniter',
  'capacitor-not-discharged': 'no example has a capacitor',
  'file-too-large': 'the file would be larger than everything else together',
};
