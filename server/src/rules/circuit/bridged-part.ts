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
      const [id, other] = [wire.from!, wire.to!].map(({ text }) => text.slice(0, text.lastIndexOf('.')));
      const part = parts.get(id!);
      if (!part || id !== other || wire.from!.text === wire.to!.text) continue;
      const where = variants.filter(v => existsIn(part, v) && existsIn(wire, v) && hasTwoEnds(partIn(part, v)));
      if (where.length === 0) continue;
      yield {
        rule: 'bridged-part',
        place: wire.place,
        message: `${name(wire.id)} bridges ${name(part.id)}`,
        detail: `It has no resistance, so no current ever flows in the part${inVariants(where, variants)}.`,
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

/** Two pins of a module or a relay are often joined on purpose; a supply is told as shorted. */
function hasTwoEnds({ kind, terminals }: PartData): boolean {
  return terminals.length === 2 && kind !== 'module' && kind !== 'battery' && kind !== 'supply';
}
