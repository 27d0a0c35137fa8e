import type { Derived } from '../../analysis/faults/fault.ts';
import { formatQuantity } from '../../base/quantity/format.ts';
import type { FaultNote } from '../../model/system.ts';
import type { Rule } from '../rule.ts';
import { name } from '../wording.ts';
import { derivedIn, notesOf, partsOf } from './fault-notes.ts';
import { lampSystem } from './lamp-example.ts';

export const faultValueWithoutUse: Rule = {
  id: 'fault-value-without-use',
  severity: 'warning',
  group: 'circuit',
  on: 'system',
  title: 'A value that the fault does not have',
  explanation: `
A bad contact or a short has a \`resistance\`, a value that has moved away has a \`drift\`, a battery or a supply that is too low has a drift or
a \`voltage\`. Other faults have none of them: a wire that is broken is broken. The value that stands here changes nothing.

Delete it, or name the fault that was meant.`,
  bad: lampSystem(`
faults:
  W2 open: { resistance: 5 Ω }
#            ^^^^^^^^^^ warning fault-value-without-use: \`W2 open\` has no resistance
`),
  good: lampSystem(`
faults:
  W2 high resistance: { resistance: 5 Ω }
`),
  *check(view) {
    for (const note of notesOf(view)) {
      const values = valuesOf(note).filter(({ is }) => is !== undefined);
      const derived = values.length > 0 ? derivedIn(view, note) : [];
      if (derived.length === 0) continue;
      for (const { key } of values) {
        const at = derived.some(fault => takes(fault, key)) ? undefined : partsOf(note, key);
        if (!at) continue;
        yield {
          rule: 'fault-value-without-use',
          place: at.key,
          message: `${name(note.id)} has no ${key}`,
          detail: usual(derived) ?? 'It is there or it is not; nothing about it is more or less.',
          help: `Delete \`${key}\`.`,
        };
      }
    }
  },
};

type Key = 'resistance' | 'drift' | 'voltage';

function valuesOf({ ohms, ratio, volts }: FaultNote): readonly { key: Key; is: number | undefined }[] {
  return [
    { key: 'resistance', is: ohms },
    { key: 'drift', is: ratio },
    { key: 'voltage', is: volts },
  ];
}

function takes({ extent, givesVolts }: Derived, key: Key): boolean {
  if (key === 'voltage') return givesVolts === true;
  return extent?.dimension === (key === 'drift' ? 'ratio' : 'resistance');
}

function usual(derived: readonly Derived[]): string | undefined {
  const extent = derived.find(fault => fault.extent)?.extent;
  if (!extent) return undefined;
  const key = extent.dimension === 'resistance' ? 'resistance' : 'drift';
  return `How bad it is stands in \`${key}\`, which is ${formatQuantity(extent.value, extent.dimension)} where nothing is said.`;
}
