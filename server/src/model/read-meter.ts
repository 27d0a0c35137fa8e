import { parseAccuracy } from '../base/quantity/accuracy.ts';
import type { Dimension } from '../base/quantity/dimension.ts';
import type { Node } from '../syntax/tree.ts';
import { type Meter, type OhmTest, type Range, handheldMeter as usual } from './meter.ts';
import { Fields, type Reader } from './reader.ts';

/** `meter` of a procedure; every key is optional. */
export function readMeter(reader: Reader, node: Node | undefined): Meter {
  const fields = new Fields(node);
  const inside = (key: string) => new Fields(fields.get(key));
  const [resistance, current, continuity, lamp] = ['resistance', 'current', 'continuity', 'test lamp'].map(inside);
  const amount = (from: Fields | undefined, key: string, dimension: Dimension, otherwise: number) =>
    positive(reader.quantity(from?.get(key), dimension)) ?? otherwise;
  const ohmsRange = readRange(reader, resistance!, 'resistance', usual.resistance);
  return {
    inputOhms: amount(fields, 'input resistance', 'resistance', usual.inputOhms),
    voltage: readRange(reader, inside('voltage'), 'voltage', usual.voltage),
    resistance: {
      ...ohmsRange,
      leadsOhms: reader.quantity(resistance?.get('leads'), 'resistance') ?? usual.resistance.leadsOhms,
      overLimitOhms: amount(
        resistance,
        'over limit',
        'resistance',
        ohmsRange.ranges.at(-1) ?? usual.resistance.overLimitOhms,
      ),
      tests: readTests(reader, resistance!, usual.resistance.tests[0]!),
    },
    current: {
      ...readRange(reader, current!, 'current', usual.current),
      burdensOhms: listOf(reader, current?.get('burden'), 'resistance') ?? usual.current.burdensOhms,
    },
    continuity: {
      ...readTests(reader, continuity!, usual.continuity)[0]!,
      belowOhms: amount(continuity, 'below', 'resistance', usual.continuity.belowOhms),
    },
    testLamp: {
      ohms: amount(lamp, 'resistance', 'resistance', usual.testLamp.ohms),
      litFromV: amount(lamp, 'lit from', 'voltage', usual.testLamp.litFromV),
      dimFromV: amount(lamp, 'dim from', 'voltage', usual.testLamp.dimFromV),
    },
  };
}

/** What a data sheet gives as counts, where only the ranges are said. */
const usualCounts = 6000;

/** A resolution without ranges holds everywhere; with ranges it is that of the lowest one. */
function readRange(reader: Reader, fields: Fields, dimension: Dimension, otherwise: Range): Range {
  const resolution = positive(reader.quantity(fields.get('resolution'), dimension));
  const ranges = listOf(reader, fields.get('ranges'), dimension)?.toSorted((a, b) => a - b);
  const accuracy = reader.parsed(fields.get('accuracy'), parseAccuracy) ?? otherwise.accuracy;
  if (ranges) return { resolution: resolution ?? ranges[0]! / usualCounts, accuracy, ranges };
  if (resolution === undefined) return { resolution: otherwise.resolution, accuracy, ranges: otherwise.ranges };
  return { resolution, accuracy, ranges: [] };
}

/** The last of a list that is shorter than the other goes on. */
function readTests(reader: Reader, fields: Fields, otherwise: OhmTest): readonly OhmTest[] {
  const volts = listOf(reader, fields.get('open voltage'), 'voltage') ?? [otherwise.openV];
  const amps = listOf(reader, fields.get('test current'), 'current') ?? [otherwise.shortA];
  return Array.from({ length: Math.max(volts.length, amps.length) }, (_, i) => ({
    openV: volts[i] ?? volts.at(-1)!,
    shortA: amps[i] ?? amps.at(-1)!,
  }));
}

/** One amount or a list; those that are not above zero are passed over, and nothing is left where there are no others. */
function listOf(reader: Reader, node: Node | undefined, dimension: Dimension): readonly number[] | undefined {
  const items = node?.kind === 'list' ? node.items : [node];
  const found = items.flatMap(item => positive(reader.quantity(item, dimension)) ?? []);
  return found.length > 0 ? found : undefined;
}

/** A meter of nothing would divide by zero. */
function positive(value: number | undefined): number | undefined {
  return value !== undefined && value > 0 ? value : undefined;
}
