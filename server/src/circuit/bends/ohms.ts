import { exact } from '../../base/ranged.ts';
import { BlockTree } from '../../graph/block-tree.ts';
import { wholeBox } from '../box.ts';
import { numberReading } from '../display.ts';
import type { Measurement } from '../meter.ts';
import {
  type Bent,
  type Element,
  endsOf,
  type Network,
  type NodeId,
  withDeadSources,
  withElements,
} from '../network.ts';
import { type Reading, read } from '../reading.ts';
import { mergedNodes } from '../topology.ts';
import { holdingSegments } from './holding.ts';
import { reachOf } from './reach.ts';
import { type Holding, startOf, straighten } from './straighten.ts';

type OhmsMeasurement = Extract<Measurement, { measure: 'resistance' }>;

/** What drives the current in one range of an ohmmeter: volts at open leads, amperes at joined ones. */
export interface OhmTest {
  readonly openV: number;
  readonly shortA: number;
  /** The meter goes on to its next range from here on. */
  readonly upToOhms: number;
}

/**
 * What an ohmmeter shows where bent parts may lie in the way: the meter is a source `V0` behind `R0 = V0 / I0`, and shows what it would
 * show of a resistor with the same voltage,
 *
 *     R = R0 V / (V0 - V),
 *
 * which rises with V, so the ends of one are the ends of the other. Where no bent part leaves the piece that it has without voltage, the
 * network is linear and is read as such. Each range drives its own current, so a bent part may read differently in each: the meter
 * shows that of the first range, the lowest first, which holds the reading.
 */
export function readOhms(network: Network, measurement: OhmsMeasurement, tests: readonly OhmTest[]): Reading {
  const { resting, isBentBetween } = atRest(network);
  let reading = read(resting, measurement);
  if (!isBentBetween(measurement.red, measurement.black)) return reading;
  for (const test of tests) {
    reading = readInRange(network, measurement, test, resting);
    if (reading.state === 'number' && reading.nominal < test.upToOhms) return reading;
  }
  return reading;
}

/** The network without any voltage, and between which nodes a bent part has a say. */
interface AtRest {
  readonly resting: Network;
  isBentBetween(red: NodeId, black: NodeId): boolean;
}

/** Many resistances are read in one network. */
function atRest(network: Network): AtRest {
  const before = known.get(network);
  if (before) return before;
  const { bends = [] } = network;
  const fresh = {
    resting: straighten(network, new Map()),
    isBentBetween: bends.length === 0 ? () => false : bentWays(withDeadSources(network), bends),
  };
  known.set(network, fresh);
  return fresh;
}

const known = new WeakMap<Network, AtRest>();

/** A bent part that lies on no way between the leads takes no current and stays as it is. */
function bentWays(dead: Network, bends: readonly Bent[]): AtRest['isBentBetween'] {
  const { of: nodeOf, count } = mergedNodes(dead);
  const ends = [...dead.elements.map(endsOf), ...bends.map(({ a, b }) => [a, b] as const)];
  const from = Int32Array.from(ends, ([a]) => nodeOf[a]!);
  const to = Int32Array.from(ends, ([, b]) => nodeOf[b]!);
  const tree = new BlockTree(count, from, to);
  return (red, black) =>
    tree.between(nodeOf[red]!, nodeOf[black]!)?.some(edge => edge >= dead.elements.length) ?? false;
}

function readInRange(network: Network, measurement: OhmsMeasurement, test: OhmTest, resting: Network): Reading {
  const { red, black, leadsOhms, overLimitOhms } = measurement;
  const tested = withMeter(network, measurement, test);
  const holding = holdingSegments(tested);
  if (!holding) return read(resting, measurement);
  const found = hullOfPieces(tested, holding, red, black);
  if (found.holdings.every(one => isAtRest(network, one))) return read(resting, measurement);
  const volts = found.readings.flatMap(one => (one.state === 'number' ? [one] : []));
  const [first] = volts;
  if (!first) return read(resting, measurement);
  const ohms = (at: number) => toOhms(at, test);
  const low = volts.reduce((a, b) => (b.low < a.low ? b : a));
  const high = volts.reduce((a, b) => (b.high > a.high ? b : a));
  if (ohms(low.low) > overLimitOhms) return { state: 'over-limit', why: 'above range' };
  const isSure = volts.length === 1;
  return numberReading(
    ohms(first.nominal) + leadsOhms.nominal,
    {
      attained: ohms(isSure ? low.attained.low : first.nominal) + leadsOhms.low,
      bound: ohms(low.low) + leadsOhms.low,
      at: isSure ? low.lowAt : [],
    },
    {
      attained: ohms(isSure ? high.attained.high : first.nominal) + leadsOhms.high,
      bound: ohms(high.high) + leadsOhms.high,
      at: isSure ? high.highAt : [],
    },
  );
}

/** Sources dead, and the meter's own one at the leads. */
function withMeter(network: Network, { red, black }: OhmsMeasurement, { openV, shortA }: OhmTest): Network {
  const { nodeCount } = network;
  const meter: Element[] = [
    { kind: 'voltage', id: 'meter source', plus: nodeCount, minus: black, volts: exact(openV) },
    { kind: 'resistance', id: 'meter inside', a: nodeCount, b: red, ohms: exact(openV / shortA) },
  ];
  return withElements({ ...withDeadSources(network), nodeCount: nodeCount + 1 }, meter);
}

interface Found {
  readonly holdings: readonly Holding[];
  readonly readings: readonly Reading[];
}

/** Pieces that the tolerances leave open are each looked at, more than these only together with their neighbours. */
const mostHoldings = 16;

/** The voltage at the leads in every combination of pieces that may hold, the one at nominal values first. */
function hullOfPieces(tested: Network, nominal: Holding, red: number, black: number): Found {
  const holdings: Holding[] = [nominal];
  const known = new Set([keyOf(nominal)]);
  for (let i = 0; i < holdings.length && holdings.length < mostHoldings; i++) {
    const holding = holdings[i]!;
    const linear = straighten(tested, holding, wholeBox, true);
    for (const bent of tested.bends ?? []) {
      for (const segment of reachOf(bent, linear, holding, wholeBox).segments.slice(1)) {
        const next = new Map([...holding, [bent.id, segment]]);
        if (known.has(keyOf(next))) continue;
        known.add(keyOf(next));
        holdings.push(next);
      }
    }
  }
  const at = { measure: 'voltage', red, black, inputOhms: Number.POSITIVE_INFINITY } as const;
  return { holdings, readings: holdings.map(one => read(straighten(tested, one), at)) };
}

function keyOf(holding: Holding): string {
  return [...holding].join(';');
}

/** Every part is in the piece that it has without any voltage. */
function isAtRest({ bends = [] }: Network, holding: Holding): boolean {
  return bends.every(bent => holding.get(bent.id) === startOf(bent));
}

function toOhms(volts: number, { openV, shortA }: OhmTest): number {
  const inside = openV / shortA;
  const left = openV - volts;
  return left <= 0 ? Number.POSITIVE_INFINITY : (inside * volts) / left;
}
