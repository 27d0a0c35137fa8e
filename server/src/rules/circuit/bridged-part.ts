import { existsIn } from '../../model/common.ts';
import { type PartData, partIn } from '../../model/parts.ts';
import type { Wire } from '../../model/system.ts';
import type { Rule } from '../rule.ts';
import { inVariants, name } from '../wording.ts';

const system = (wire: string) => `#- /lamp.system.yaml
format: 1
system: lamp
parts:
  G1: { kind: battery, voltage: 12.6 V ± 0.4 V, internal resistance: 10 mΩ }
  R1: { kind: resistor, resistance: 10 Ω ± 5 % }
  E1: { kind: resistor, resistance: 20 Ω ± 5 % }
wires:
  - W1: G1.+ to R1.1, red
  - W2: R1.2 to E1.1, yellow
${wire}  - W4: G1.- to E1.2, black
`;

export const bridgedPart: Rule = {
  id: 'bridged-part',
  severity: 'warning',
  group: 'circuit',
  on: 'system',
  title: 'A part bridged by a wire without resistance',
  explanation: `
A wire that has neither size and length nor a resistance makes one point of its two ends. This one leads from one terminal of a part to the other,
so no current ever flows in the part and no voltage ever lies across it, whatever its own value is. Mostly one end is at the wrong terminal.

Correct the end of the wire. A wire that really lies beside the part, as a shunt does, gets its size and length, or its resistance.`,
  bad: system(`  - W3: R1.1 to R1.2, red
#   ^^ warning bridged-part: \`W3\` bridges \`R1\`
`),
  good: system('  - W3: R1.1 to R1.2, 20 mΩ\n'),
  *check({ system: { parts, variants, wires } }) {
    for (const wire of wires.filter(isIdeal)) {
      const [one, other] = [wire.from!, wire.to!].map(({ text }) => splitPoint(text));
      const part = parts.get(one!.owner);
      if (!part || one!.owner !== other!.owner || one!.terminal === other!.terminal) continue;
      const isAcross = (v: string) =>
        bridgedEnds(partIn(part, v))?.every(end => end === one!.terminal || end === other!.terminal) ?? false;
      const where = variants.filter(v => existsIn(part, v) && existsIn(wire, v) && isAcross(v));
      if (where.length === 0) continue;
      const bridged = partIn(part, where[0]!).kind === 'relay' ? 'coil' : 'part';
      yield {
        rule: 'bridged-part',
        place: wire.place,
        message: `${name(wire.id)} bridges ${bridged === 'coil' ? 'the coil of ' : ''}${name(part.id)}`,
        detail: `It has no resistance, so no current ever flows in the ${bridged}${inVariants(where, variants)}.`,
        help: 'Correct one of its ends, or write its size and length.',
        related: [{ place: part.place, message: 'the part between its ends' }],
      };
    }
  },
};

/** What passes a plug has at least the resistance of its contacts. */
function isIdeal({ from, to, through, size, lengthM, statedOhms }: Wire): boolean {
  return from !== undefined && to !== undefined && through.length === 0 && !size && !lengthM && !statedOhms;
}

function splitPoint(text: string): { readonly owner: string; readonly terminal: string } {
  const at = text.lastIndexOf('.');
  return { owner: text.slice(0, at), terminal: text.slice(at + 1) };
}

/**
 * The terminals between which a part does what it is for. Nothing of a module, whose pins are often joined on purpose, and of a supply,
 * which is told as shorted; the wiper of a potentiometer may well be joined to an end of its track.
 */
function bridgedEnds({ kind, terminals }: PartData): readonly string[] | undefined {
  const names = terminals.map(({ text }) => text);
  switch (kind) {
    case 'module':
    case 'battery':
    case 'supply':
      return undefined;
    case 'relay':
      return names.slice(0, 2);
    case 'potentiometer':
    case 'ratiometric sensor':
    case 'hall sensor':
      return [names[0]!, names[2]!];
    default:
      return names.length === 2 ? names : undefined;
  }
}
