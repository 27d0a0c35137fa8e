import { closest } from '../base/closest.ts';
import { parseQuantity } from '../base/quantity/quantity.ts';
import type { SensorCurve } from '../base/sensor-curve.ts';
import type { Node } from '../syntax/tree.ts';
import type { PartKind } from './parts.ts';
import { readTest, readValue } from './read-values.ts';
import { entriesOf, Fields, type Reader } from './reader.ts';

/** Parts whose value follows a condition with a number. */
export function readSensor(kind: PartKind, reader: Reader, fields: Fields): object {
  const follows = reader.text(fields.get('follows'));
  switch (kind) {
    case 'thermistor':
    case 'rtd':
    case 'thermocouple':
      return { kind, follows, curve: readCurve(kind, reader, fields) };
    case 'potentiometer':
      return { kind, follows, ohms: readValue(reader, fields.get('resistance'), 'resistance') };
    case 'ratiometric sensor': {
      const span = reader.limit(fields.get('span'), 'ratio');
      const ohms = reader.ranged(fields.get('resistance'), 'resistance');
      return { kind, follows, span: span && { low: span.low, high: span.high }, ohms };
    }
    case 'current loop': {
      const span = reader.limit(fields.get('span'), 'current');
      const leastV = reader.quantity(fields.get('least voltage'), 'voltage');
      return { kind, follows, span: span && { low: span.low, high: span.high }, leastV };
    }
    default:
      return {
        kind,
        onWhen: readTest(reader, fields.get('on when')),
        onOhms: reader.ranged(fields.get('on resistance'), 'resistance'),
      };
  }
}

/** Curves of standards by the kind of part that has them. */
const standards: Readonly<Partial<Record<PartKind, readonly string[]>>> = {
  rtd: ['IEC 60751 Pt100', 'IEC 60751 Pt500', 'IEC 60751 Pt1000'],
  thermocouple: ['type E', 'type J', 'type K', 'type N', 'type T'],
};

function readCurve(kind: PartKind, reader: Reader, part: Fields): SensorCurve | undefined {
  const fields = new Fields(part.get('curve'));
  const standard = reader.text(fields.get('standard'));
  if (standard) {
    const known = standards[kind] ?? [];
    if (known.includes(standard.text)) return { standard: standard.text, class: readClass(kind, reader, part) };
    const suggestion = closest(standard.text, known);
    reader.report('unknown-curve', standard.place, `\`${standard.text}\` is no curve of a ${kind}`, {
      detail: known.length > 0 ? `Known are ${known.map(name => `\`${name}\``).join(', ')}.` : undefined,
      help: 'Give its curve as a `table`, or by what its data sheet says.',
      ...(suggestion && {
        fixes: [
          { title: `Write \`${suggestion}\``, preferred: true, edits: [{ place: standard.place, text: suggestion }] },
        ],
      }),
    });
    return undefined;
  }
  return readBeta(reader, fields) ?? readSteinhart(reader, fields) ?? readPoints(kind, reader, fields.get('table'));
}

/** Tolerance classes of those standards. */
const classes: Readonly<Partial<Record<PartKind, readonly string[]>>> = {
  rtd: ['AA', 'A', 'B', 'C'],
  thermocouple: ['1', '2', '3'],
};

function readClass(kind: PartKind, reader: Reader, part: Fields): string | undefined {
  const written = reader.text(part.get('class'));
  const known = classes[kind] ?? [];
  if (!written || known.includes(written.text)) return written?.text;
  reader.report('unknown-curve', written.place, `\`${written.text}\` is no tolerance class for ${kind}`, {
    detail: `Known are ${known.map(name => `\`${name}\``).join(', ')}.`,
    help: 'Write one of them, or leave it out.',
  });
  return undefined;
}

function readBeta(reader: Reader, fields: Fields): SensorCurve | undefined {
  const beta = fields.get('beta');
  const point = entriesOf(beta).find(({ key }) => key.text.startsWith('at '));
  const atC = point && parseQuantity(point.key.text.slice(3), 'temperature').value?.value;
  const ohms = point && reader.ranged(point.value, 'resistance');
  const betaK = reader.ranged(new Fields(beta).get('B'), 'temperature difference');
  return atC !== undefined && ohms && betaK ? { beta: { atC, ohms, betaK } } : undefined;
}

function readSteinhart(reader: Reader, fields: Fields): SensorCurve | undefined {
  const written = new Fields(fields.get('steinhart-hart'));
  const [a, b, c] = ['A', 'B', 'C'].map(key => reader.quantity(written.get(key), 'number'));
  const tolerance = reader.quantity(written.get('tolerance'), 'ratio') ?? 0;
  return a !== undefined && b !== undefined && c !== undefined ? { steinhart: { a, b, c, tolerance } } : undefined;
}

function readPoints(kind: PartKind, reader: Reader, node: Node | undefined): SensorCurve | undefined {
  const items = node?.kind === 'list' ? node.items : [];
  const dimension = kind === 'thermocouple' ? 'voltage' : 'resistance';
  const points = items.flatMap(item => {
    const fields = new Fields(item);
    const at = reader.quantity(fields.get('at'));
    const is = reader.ranged(fields.get('is'), dimension);
    return at === undefined || !is ? [] : [{ at, is }];
  });
  points.sort((one, other) => one.at - other.at);
  return points.length >= 2 && points.length === items.length ? { points } : undefined;
}
