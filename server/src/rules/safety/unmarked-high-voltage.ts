import { sourceVolts } from '../../analysis/lower/parts/battery.ts';
import { formatQuantity } from '../../base/quantity/format.ts';
import { partIn } from '../../model/parts.ts';
import { addKey } from '../fixes.ts';
import type { Rule } from '../rule.ts';
import { inVariants, name } from '../wording.ts';

/** Above this a direct voltage is dangerous to touch: voltage class B of ISO 6469-3, from memory. */
const touchableVolts = 60;

const system = (supply: string, mark = '') => `#- /drive.system.yaml
format: 1
system: drive
parts:
  G1: { kind: battery, ${supply}, internal resistance: 100 mΩ }
${mark}  R1: { kind: resistor, resistance: 100 Ω ± 5 % }
wires:
  - W1: G1.+ to R1.1, 4 mm², 1 m, orange
  - W2: R1.2 to G1.-, 4 mm², 1 m, orange
`;

export const unmarkedHighVoltage: Rule = {
  id: 'unmarked-high-voltage',
  severity: 'warning',
  group: 'safety',
  on: 'system',
  title: 'A supply above 60 V that is not marked as high voltage',
  explanation: `
A direct voltage above 60 V can kill by touch (voltage class B of ISO 6469-3). Unless the part is marked, no step that works at it is held to
carry a caution.

Write \`hazard: high voltage\` at the supply, and at the parts and connectors that carry its voltage.`,
  bad: system(
    'voltage: 384 V ± 20 V',
    '# ^^ warning unmarked-high-voltage: `G1` gives up to 404 V and is not marked `high voltage` [fix]\n',
  ),
  good: system('voltage: 384 V ± 20 V, hazard: high voltage'),
  *check({ system: { parts, variants } }) {
    for (const part of parts.values()) {
      const high = variants.filter(variant => {
        const data = partIn(part, variant);
        return data.hazards.every(h => h.text !== 'high voltage') && highestVolts(data) > touchableVolts;
      });
      const [first] = high;
      if (first === undefined) continue;
      const volts = formatQuantity(highestVolts(partIn(part, first)), 'voltage');
      yield {
        rule: 'unmarked-high-voltage',
        place: part.place,
        message: `${name(part.id)} gives up to ${volts} and is not marked \`high voltage\``,
        detail: `Above ${touchableVolts} V a direct voltage is dangerous to touch${inVariants(high, variants)}.`,
        help: 'Write `hazard: high voltage` here, and at the parts and connectors that carry this voltage.',
        fixes: part.data.hazards.length > 0 ? [] : addKey(part, 'hazard', 'high voltage'),
      };
    }
  },
};

function highestVolts(data: ReturnType<typeof partIn>): number {
  if (data.kind !== 'battery' && data.kind !== 'supply') return 0;
  return Math.max(0, ...(sourceVolts(data)?.cases ?? []).map(({ is }) => Math.max(is.high, -is.low)));
}
