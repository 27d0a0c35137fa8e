import { name } from '../../base/name.ts';
import { type Dimension, dimensionFacts } from '../../base/quantity/dimension.ts';
import { formatQuantity } from '../../base/quantity/format.ts';
import type { SensorCurve } from '../../base/sensor-curve.ts';
import { isResistance, reachOfCurve, sensorValue } from '../../circuit/curves/sensor.ts';
import type { PartData } from '../../model/parts.ts';
import type { System } from '../../model/system.ts';
import type { Finding, Rule } from '../rule.ts';
import { system } from '../text/stage.ts';

export const outsideCurve: Rule = {
  id: 'outside-curve',
  severity: 'warning',
  group: 'circuit',
  on: 'system',
  title: 'A sensor without a value for some of what it follows',
  explanation: `
A sensor follows a condition with a number, from and to. Its curve has an end before the condition does, or the condition has states and
no number, or one that is no temperature where the sensor has its values by temperature. So there are situations in which no reading behind
the sensor can be computed.`,
  bad: system(`
conditions:
  oil: { from: -40 °C, to: 150 °C, rest: 20 °C }
parts:
  B1: { kind: thermistor, follows: oil, curve: { table: [{ at: 0 °C, is: 5.6 kΩ }, { at: 100 °C, is: 190 Ω }] } }
#                                  ^^^ warning outside-curve: The curve of \`B1\` ends before \`oil\` does
wires:
  - W1: B1.1 to B1.2, 100 Ω
`),
  good: system(`
conditions:
  oil: { from: 0 °C, to: 100 °C, rest: 20 °C }
parts:
  B1: { kind: thermistor, follows: oil, curve: { table: [{ at: 0 °C, is: 5.6 kΩ }, { at: 100 °C, is: 190 Ω }] } }
wires:
  - W1: B1.1 to B1.2, 100 Ω
`),
  *check({ system }) {
    for (const part of system.parts.values()) {
      for (const data of new Set([part.data, ...part.byVariant.values()])) {
        const found = mistakeOf(part.id, data, system);
        if (found) {
          yield found;
          break;
        }
      }
    }
  },
};

function mistakeOf(id: string, data: PartData, { conditions }: System): Finding | undefined {
  if (!('follows' in data) || !data.follows) return undefined;
  const condition = conditions.get(data.follows.text);
  if (!condition) return undefined;
  const about = {
    rule: 'outside-curve',
    place: data.follows.place,
    related: [{ place: condition.place, message: 'here' }],
  };
  if (!condition.number) {
    // What has neither states nor a number could not be read, and is told there.
    if (condition.states.length === 0) return undefined;
    return {
      ...about,
      message: `${name(condition.id)} has states and no number that ${name(id)} could follow`,
      help: `Give ${name(condition.id)} a number, \`from\` and \`to\`.`,
    };
  }
  const { from, to, dimension } = condition.number;
  const curve = curveOf(data);
  const wanted = curve && ('points' in curve ? curve.dimension : 'temperature');
  if (curve && wanted && dimension !== wanted) {
    const ask = dimensionFacts[wanted];
    return {
      ...about,
      message: `${name(condition.id)} is no ${bare(wanted)} that ${name(id)} could follow`,
      detail: `${name(condition.id)} is ${dimensionFacts[dimension].noun}, and ${name(id)} has its values by ${bare(wanted)}.`,
      help:
        'points' in curve
          ? `Correct the units of its points, or let it follow ${ask.noun}.`
          : 'Let it follow a condition in °C, or give it another kind, such as `potentiometer`.',
    };
  }
  const reach = curve && reachOfCurve(curve);
  const end = curve && 'steinhart' in curve ? [from, to].find(at => !hasValue(curve, at)) : undefined;
  if (end !== undefined) {
    return {
      ...about,
      message: `By its coefficients ${name(id)} has no resistance at ${formatQuantity(end, dimension)}`,
      detail: 'None comes out, or more than can be counted: these are the coefficients of no thermistor.',
      help: 'Compare them with the data sheet, their powers of ten above all.',
    };
  }
  if (!reach || (from >= reach.from && to <= reach.to)) return undefined;
  const ends = ({ from, to }: { from: number; to: number }) =>
    [from, to].map(value => formatQuantity(value, dimension, { digits: 6 })).join(' to ');
  return {
    ...about,
    message: `The curve of ${name(id)} ends before ${name(condition.id)} does`,
    detail: `It goes from ${ends(reach)}, and ${name(condition.id)} from ${ends({ from, to })}. Beyond it no reading is computed.`,
    help: 'Add points to the curve, or narrow the condition.',
  };
}

function hasValue(curve: SensorCurve, at: number): boolean {
  const value = sensorValue(curve, at, at);
  return value !== undefined && isResistance(value);
}

/** What stands by the number that is followed; nothing where the whole condition counts, from its lowest number to its highest. */
function curveOf(data: PartData): SensorCurve | undefined {
  if ('curve' in data) return data.curve;
  return 'signal' in data && data.signal && 'points' in data.signal.span ? data.signal.span : undefined;
}

/** `temperature` of `a temperature`. */
function bare(dimension: Dimension): string {
  return dimensionFacts[dimension].noun.replace(/^an? /, '');
}
