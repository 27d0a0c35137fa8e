import type { Ranged } from '../base/ranged.ts';
import type { SensorSignal } from '../base/sensor-curve.ts';
import type { Node } from '../syntax/tree.ts';
import type { PartKind } from './parts.ts';
import { aboveZero, impossible, loadOhms, loadRange } from './possible.ts';
import { readCurve, readSensorTable } from './read-curve.ts';
import { readTest, readValue } from './read-values.ts';
import type { Fields, Reader } from './reader.ts';

/** Parts whose value follows a condition with a number. */
export function readSensor(kind: PartKind, reader: Reader, fields: Fields): object {
  const follows = reader.text(fields.get('follows'));
  switch (kind) {
    case 'thermistor':
    case 'rtd':
    case 'thermocouple':
      return { kind, follows, curve: readCurve(kind, reader, fields) };
    case 'potentiometer': {
      const ohms = loadOhms(reader, 'a track', readValue(reader, fields.get('resistance'), 'resistance'));
      return { kind, follows, ohms, accuracy: readAccuracy(reader, fields.get('accuracy')) };
    }
    case 'ratiometric sensor': {
      const ohms = loadRange(reader, 'a sensor', fields.get('resistance'));
      return { kind, follows, signal: readSignal('ratio', reader, fields), ohms };
    }
    case 'current loop': {
      const leastV = readLeastVoltage(reader, fields.get('least voltage'));
      return { kind, follows, signal: readSignal('current', reader, fields), leastV };
    }
    default:
      return {
        kind,
        onWhen: readTest(reader, fields.get('on when')),
        onOhms: reader.ranged(fields.get('on resistance'), 'resistance'),
        leastV: readLeastVoltage(reader, fields.get('least voltage')),
      };
  }
}

function readSignal(dimension: 'ratio' | 'current', reader: Reader, fields: Fields): SensorSignal | undefined {
  const node = fields.get('span');
  const accuracy = readAccuracy(reader, fields.get('accuracy'));
  const value = (written: Node | undefined) => signalRange(dimension, reader, written);
  const span = node?.kind === 'list' ? readSensorTable(reader, node, value) : readEnds(dimension, reader, node);
  return span && { span, accuracy };
}

/** What a signal can be: part of its supply, or a current that flows one way. */
function signalRange(dimension: 'ratio' | 'current', reader: Reader, node: Node | undefined): Ranged | undefined {
  const is = reader.ranged(node, dimension);
  if (!is || (is.low >= 0 && (dimension === 'current' || is.high <= 1))) return is;
  return dimension === 'ratio'
    ? impossible(reader, node, 'A signal is between 0 % and 100 % of its supply', partOfSupply, usualSpan.ratio)
    : impossible(reader, node, 'The current of a loop flows one way', oneWay, usualSpan.current);
}

const partOfSupply = 'The sensor makes its signal from its supply, and cannot give more than that.';
const oneWay = 'A transmitter lets a current through from its first terminal to its second, and none back.';
const usualSpan = { ratio: 'Write it as `10 % .. 90 %`.', current: 'Write it as `4 mA .. 20 mA`.' };

function readEnds(dimension: 'ratio' | 'current', reader: Reader, node: Node | undefined) {
  const ends = signalRange(dimension, reader, node);
  if (!ends || ends.low < ends.high) return ends && { low: ends.low, high: ends.high };
  const why = 'The signal goes from one end to the other as the condition goes from its lowest number to its highest.';
  return impossible(reader, node, 'A span has two ends', why, usualSpan[dimension]);
}

function readLeastVoltage(reader: Reader, node: Node | undefined): number | undefined {
  return aboveZero(reader, node, reader.quantity(node, 'voltage'), 'least voltage of a sensor', '8 V');
}

function readAccuracy(reader: Reader, node: Node | undefined): number {
  const accuracy = reader.quantity(node, 'ratio') ?? 0;
  if (accuracy >= 0 && accuracy < 1) return accuracy;
  const why = 'It says how far the signal may be off either way, as a part of its span.';
  impossible(reader, node, 'An accuracy is between 0 % and 100 %', why, 'Write it as `accuracy: 2 %`.');
  return 0;
}
