import { closest } from '../base/closest.ts';
import type { Dimension } from '../base/quantity/dimension.ts';
import { parseQuantity } from '../base/quantity/quantity.ts';
import type { Ranged } from '../base/ranged.ts';
import type { SensorCurve, SensorPoint, SensorTable } from '../base/sensor-curve.ts';
import type { Node, ScalarNode } from '../syntax/tree.ts';
import type { PartKind } from './parts.ts';
import { impossible, loadRange } from './possible.ts';
import { entriesOf, Fields, type Reader } from './reader.ts';

/** How a sensor follows its number: by a curve of a standard, by what its data sheet says, or by a table. */
export function readCurve(kind: PartKind, reader: Reader, part: Fields): SensorCurve | undefined {
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
  const value = (node: Node | undefined) =>
    kind === 'thermocouple' ? reader.ranged(node, 'voltage') : loadRange(reader, 'a sensor', node);
  return (
    readBeta(reader, fields) ?? readSteinhart(reader, fields) ?? readSensorTable(reader, fields.get('table'), value)
  );
}

/** Curves of standards by the kind of part that has them. */
const standards: Readonly<Partial<Record<PartKind, readonly string[]>>> = {
  rtd: ['IEC 60751 Pt100', 'IEC 60751 Pt500', 'IEC 60751 Pt1000'],
  thermocouple: ['type E', 'type J', 'type K', 'type N', 'type T'],
};

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
  const beta = new Fields(fields.get('beta'));
  const written = beta.get('B');
  const [point, second] = entriesOf(beta.map).filter(({ key }) => key.text.startsWith('at '));
  const atC = point && readAt(reader, point.key);
  const ohms = point && loadRange(reader, 'a thermistor', point.value);
  const betaK = reader.ranged(written, 'temperature difference');
  if (second) {
    const why = 'A B value leads from one known point to all others, and so one of the two would be wrong.';
    return impossible(reader, second.key, 'The resistance is known at a second temperature', why, noBeta);
  }
  if (betaK && !(betaK.low > 0)) {
    const why = 'It is what a thermistor whose resistance falls with temperature has, some 3000 K to 4500 K.';
    return impossible(reader, written, 'A B value is above zero', why, noBeta);
  }
  if (betaK && entriesOf(beta.map).length === 1) {
    const why = 'A B value tells how the resistance goes away from a known point, and none is stated.';
    const message = 'The resistance at a known temperature is missing';
    return impossible(reader, written, message, why, 'Add it beside `B`, as `at 25 °C: 10 kΩ ± 5 %`.');
  }
  return atC !== undefined && ohms && betaK ? { beta: { atC, ohms, betaK } } : undefined;
}

const noBeta = 'Give one point and a B value above zero, or the curve as a `table`.';

/** The temperature in a key such as `at 25 °C`. */
function readAt(reader: Reader, key: ScalarNode): number | undefined {
  const { value, problem } = parseQuantity(key.text.slice(3), 'temperature');
  if (problem) reader.quantityProblem(key, problem, 3, key.text.slice(3));
  return value?.value;
}

function readSteinhart(reader: Reader, fields: Fields): SensorCurve | undefined {
  const node = fields.get('steinhart-hart');
  const written = new Fields(node);
  const [a, b, c] = ['A', 'B', 'C'].map(key => reader.quantity(written.get(key), 'number'));
  const tolerance = reader.quantity(written.get('tolerance'), 'ratio') ?? 0;
  if (a === undefined || b === undefined || c === undefined) return undefined;
  if (!(b >= 0 && c >= 0 && b + c > 0)) {
    const why = 'With such coefficients one temperature has no resistance, or several.';
    const [wrong, which] = b < 0 || c >= 0 ? [written.get('B'), 'B'] : [written.get('C'), 'C'];
    return impossible(
      reader,
      wrong,
      `The coefficient ${which} is above zero`,
      why,
      'Give the curve of a PTC as a `table`.',
    );
  }
  if (tolerance >= 0 && tolerance < 1) return { steinhart: { a, b, c, tolerance } };
  const why = 'It says how far the resistance may be off either way, as a part of it.';
  return impossible(
    reader,
    written.get('tolerance'),
    'A tolerance is between 0 % and 100 %',
    why,
    'Write it as `5 %`.',
  );
}

/**
 * Points `{ at, is }` by rising number; `read` reads what stands under `is`. Nothing where one of them cannot be read, or where
 * two have the same number: which of them counts nobody could tell.
 */
export function readSensorTable(
  reader: Reader,
  node: Node | undefined,
  read: (is: Node | undefined) => Ranged | undefined,
): SensorTable | undefined {
  const items = node?.kind === 'list' ? node.items.map(item => new Fields(item)) : [];
  const points: SensorPoint[] = [];
  let dimension: Dimension | undefined;
  for (const item of items) {
    const at = reader.parsed(item.get('at'), text => parseQuantity(text, dimension));
    const is = read(item.get('is'));
    if (!at || !is) continue;
    dimension = at.dimension;
    const twin = points.find(point => point.at === at.value);
    if (twin) return sameTwice(reader, item.get('at'));
    points.push({ at: at.value, is });
  }
  if (dimension === undefined || points.length < Math.max(2, items.length)) return undefined;
  return { points: points.sort((one, other) => one.at - other.at), dimension };
}

function sameTwice(reader: Reader, node: Node | undefined): undefined {
  const text = node?.kind === 'scalar' ? node.text : '';
  const why = 'The sensor has one value at each number that it follows.';
  return impossible(
    reader,
    node,
    `The table has \`${text}\` twice`,
    why,
    'Delete one of the two points, or correct its number.',
  );
}
