import { formatQuantity } from '../base/quantity/format.ts';
import type { Ranged } from '../base/ranged.ts';
import type { Node } from '../syntax/tree.ts';
import type { Ref } from './common.ts';
import type { TablePoint } from './parts.ts';
import { impossible, junctionVolts, loadOhms, loadRange } from './possible.ts';
import { readTest, readValue } from './read-values.ts';
import { Fields, type Reader } from './reader.ts';

/** A lamp by its rating; what the curve between cold and hot is, is not the model's to say. */
export function readLamp(reader: Reader, fields: Fields): object {
  const [voltage, power, cold] = ['voltage', 'power', 'cold resistance'].map(key => fields.get(key));
  const ratedV = reader.quantity(voltage, 'voltage');
  const powerW = reader.ranged(power, 'power');
  const coldOhms = reader.ranged(cold, 'resistance');
  if (ratedV !== undefined && !(ratedV > 0)) impossible(reader, voltage, ...noRating('voltage', '12 V'));
  else if (powerW && !(powerW.low > 0)) impossible(reader, power, ...noRating('power', '21 W'));
  else if (coldOhms && !(coldOhms.low > 0)) {
    const why = 'With no resistance it would be a piece of wire, and take whatever current the supply can give.';
    impossible(reader, cold, 'The cold resistance of a lamp is above zero', why, 'Leave it out if it is not known.');
  } else if (ratedV !== undefined && powerW && coldOhms && coldOhms.nominal >= ratedV ** 2 / powerW.nominal) {
    const hot = formatQuantity(ratedV ** 2 / powerW.nominal, 'resistance');
    const rating = `${formatQuantity(powerW.nominal, 'power')} at ${formatQuantity(ratedV, 'voltage')}`;
    const why = `By its rating, ${rating}, it has ${hot} while it is lit, and a cold filament has about a twelfth of that.`;
    impossible(reader, cold, `Cold it cannot have as much as lit, ${hot}`, why, 'Correct one of the three values.');
  }
  return { kind: 'lamp', ratedV, powerW, coldOhms };
}

function noRating(what: string, example: string): [message: string, detail: string, help: string] {
  return [
    `The rated ${what} of a lamp is above zero`,
    'What it takes at other voltages is worked out from its rated voltage and power.',
    `Write it as printed on its base: \`${what}: ${example}\`.`,
  ];
}

export function readMotor(reader: Reader, fields: Fields): object {
  const running = new Fields(fields.get('running'));
  const ratedV = reader.quantity(running.get('voltage'), 'voltage');
  const amps = reader.ranged(running.get('current'), 'current');
  const ohms = loadOhms(reader, 'a winding', readValue(reader, fields.get('resistance'), 'resistance'));
  if (ratedV !== undefined && amps) checkRunning(reader, running, ratedV, amps, ohms?.cases[0]?.is.nominal);
  return {
    kind: 'motor',
    ohms,
    running: ratedV !== undefined && amps ? { ratedV, amps } : undefined,
    stalledWhen: readTest(reader, fields.get('stalled when')),
  };
}

function checkRunning(reader: Reader, running: Fields, ratedV: number, amps: Ranged, windingOhms?: number): void {
  const [voltage, current] = [running.get('voltage'), running.get('current')];
  if (!(ratedV > 0) || !(amps.low > 0)) {
    const [wrong, what, example] = ratedV > 0 ? [current, 'current', '4 A'] : [voltage, 'voltage', '12 V'];
    const why = 'A motor that turns takes some current at some voltage.';
    impossible(reader, wrong, `The running ${what} of a motor is above zero`, why, `Write it as \`${example}\`.`);
  } else if (windingOhms !== undefined && amps.nominal * windingOhms >= ratedV) {
    const stalled = formatQuantity(ratedV / windingOhms, 'current');
    const why = `${formatQuantity(windingOhms, 'resistance')} of winding let ${stalled} through at ${formatQuantity(ratedV, 'voltage')} while it stands still, and once it turns, it takes less.`;
    const message = `Running it cannot take as much as standing still, ${stalled}`;
    impossible(reader, current, message, why, 'Correct the current, or the resistance of the winding.');
  }
}

export function readJunction(reader: Reader, fields: Fields): object {
  return {
    forwardV: junctionVolts(reader, 'forward voltage', fields.get('forward voltage')),
    zenerV: junctionVolts(reader, 'zener voltage', fields.get('zener voltage')),
    slopeOhms: loadRange(reader, 'a diode', fields.get('resistance')),
  };
}

export function readTransistor(reader: Reader, fields: Fields): object {
  return {
    kind: 'transistor',
    saturationV: reader.quantity(fields.get('saturation voltage'), 'voltage'),
    saturationOhms: loadRange(reader, 'a transistor', fields.get('saturation resistance')),
    isPnp: reader.text(fields.get('polarity'))?.text === 'PNP',
  };
}

/** A table of voltage and current. Points that no part has are told, and the part then counts as not computed. */
export function readTable(reader: Reader, name: Ref, node: Node | undefined): object {
  const items = node?.kind === 'list' ? node.items : [];
  const points = items.flatMap((item): WrittenPoint[] => {
    const fields = new Fields(item);
    const volts = reader.quantity(fields.get('at'), 'voltage');
    const amps = reader.ranged(fields.get('is'), 'current');
    return volts === undefined || !amps ? [] : [{ volts, amps, item }];
  });
  const isWhole = points.length === items.length;
  const hasMistake = isWhole && reportTable(reader, name, points);
  const isUsable = isWhole && !hasMistake && points.length >= 2;
  return { kind: 'two-terminal', points: isUsable ? points.map(({ volts, amps }) => ({ volts, amps })) : [] };
}

interface WrittenPoint extends TablePoint {
  readonly item: Node;
}

/** Tells the first point at which the table is that of no part of the language, if there is one. */
function reportTable(reader: Reader, { text }: Ref, points: readonly WrittenPoint[]): boolean {
  const tell = ({ item }: WrittenPoint, key: 'at' | 'is', message: string, detail: string, help: string): true => {
    const place = reader.place((new Fields(item).get(key) ?? item).span);
    reader.report('falling-table', place, message, { detail, help });
    return true;
  };
  for (const [i, point] of points.entries()) {
    const before = points[i - 1];
    const { nominal, low, high } = point.amps;
    if (before && (point.volts <= before.volts || nominal < before.amps.nominal)) {
      const why = 'More voltage gives more current; with a table that falls the circuit would have several answers.';
      const help = 'Write the points by rising voltage, each with more current than the one before.';
      return tell(point, 'at', `The table of \`${text}\` falls here`, why, help);
    }
    if (before && nominal === before.amps.nominal && nominal !== 0) {
      const why = `The current stays at ${formatQuantity(nominal, 'current')} from one point to the next, and then no voltage follows from it.`;
      const help = 'Let it rise a little with the voltage: `1.100 A`, then `1.101 A`.';
      return tell(point, 'is', `The table of \`${text}\` repeats its current here`, why, help);
    }
    if (nominal !== 0 && low * high <= 0) {
      const why = 'At one end of its tolerance no current would flow here, or it would flow backwards.';
      return tell(point, 'is', `The tolerance here is as wide as the current`, why, 'Narrow the tolerance.');
    }
  }
  const atZeroA = ampsAtZero(points);
  const nearest = points.reduce((a, b) => (Math.abs(b.volts) < Math.abs(a.volts) ? b : a), points[0]!);
  if (!atZeroA || Math.abs(atZeroA) <= 1e-9 * Math.max(...points.map(({ amps }) => Math.abs(amps.nominal))))
    return false;
  const why = `By it ${formatQuantity(atZeroA, 'current')} flow at 0 V. A part through which current flows without a voltage across it is a supply.`;
  return tell(
    nearest,
    'is',
    `The table of \`${text}\` drives current at 0 V`,
    why,
    'Add the point `{ at: 0 V, is: 0 A }`.',
  );
}

/** The current at 0 V on the straight line through the points around it, or through the two nearest ones. */
function ampsAtZero(points: readonly TablePoint[]): number | undefined {
  const above = points.findIndex(({ volts }, i) => i > 0 && volts >= 0);
  const [to, from] = [points.at(above), points.at(above - 1)];
  if (points.length < 2 || !from || !to) return undefined;
  return from.amps.nominal - (from.volts * (to.amps.nominal - from.amps.nominal)) / (to.volts - from.volts);
}

/** `{ diode: 85 to 86 }`: the coil terminals of its anode and its cathode. */
export function readSuppressionDiode(reader: Reader, node: Node | undefined): readonly [Ref, Ref] | undefined {
  if (node?.kind !== 'scalar' || node.text === '') return undefined;
  const [, first, between, second] = /^\s*(\S.*?)(\s+to\s+)(\S.*?)\s*$/.exec(node.text) ?? [];
  if (first === undefined || between === undefined || second === undefined) {
    reader.report('unreadable-contact', reader.place(node.span), `\`${node.text}\` does not name two terminals`, {
      detail: 'A diode across the coil goes from the terminal of its anode to that of its cathode.',
      help: 'Write it as `86 to 85`.',
    });
    return undefined;
  }
  const start = node.text.indexOf(first);
  const next = start + first.length + between.length;
  return [
    { text: first, place: reader.within(node, start, start + first.length) },
    { text: second, place: reader.within(node, next, next + second.length) },
  ];
}
