import { BoundedMap } from '../base/bounded-map.ts';
import { isExact } from '../base/ranged.ts';
import { type Effort, type Extreme, extremes } from './bounds.ts';
import { type Core, operate, planCore } from './core.ts';
import { type End, numberReading, type Reading } from './display.ts';
import { type Extracted, extract } from './extract.ts';
import { attachClamp, connectMeter, type Measurement } from './meter.ts';
import { nameBranches, nameCorner } from './naming.ts';
import { type CurrentSource, type Network, withDeadSources } from './network.ts';
import { type Measured, prune } from './prune.ts';
import { reduce } from './reduce.ts';
import { resistanceBetween } from './resistance.ts';
import { readTied, tiedTogether } from './tied.ts';
import { checkTopology } from './topology.ts';
import { readThroughZeros } from './zeros.ts';

export type { NumberReading, Reading } from './display.ts';
export type { Measurement } from './meter.ts';
export type { PartValue } from './naming.ts';
export { isLive } from './topology.ts';

export interface ReadOptions {
  /** How many boxes of tolerances may be looked at before the ends are given as they stand. */
  cornerBudget?: number;
  cancelled?: () => boolean;
}

/** What the measurement shows, with the ends it can reach. Never throws on a network that can be built. */
export function read(network: Network, measurement: Measurement, options?: ReadOptions): Reading {
  const pruned = prune(network, measurement);
  const reading =
    pruned && (options ? readPart(pruned.of(), options) : known.remember(pruned.key, () => readPart(pruned.of())));
  // Which lead floats is told by what else hangs on it.
  return !reading || reading.state === 'floating' ? readPart({ network, measurement }, options) : reading;
}

/** The reading, where it is known already or so little has a say in it that nothing can be cheaper. */
export function readCheaply(network: Network, measurement: Measurement): Reading | undefined {
  const pruned = prune(network, measurement);
  if (!pruned || pruned.size > 8) return pruned && known.get(pruned.key);
  return read(network, measurement);
}

/**
 * The same part of a network is met in many of its states, and in the next version of its file: it is solved once. A reading
 * holds the names of all that has a say in it: some kilobytes.
 */
const known = new BoundedMap<string, Reading>(4_000);

function readPart({ network, measurement, isBlock }: Measured, options: ReadOptions = {}): Reading {
  const effort = (): Effort => ({ boxes: options.cornerBudget ?? 400, cancelled: options.cancelled ?? (() => false) });
  const tied = tiedTogether(network);
  // The ends of a resistance are where all its members have theirs, tied or not.
  if (tied.length === 0 || measurement.measure === 'resistance')
    return readWith(network, measurement, effort(), isBlock);
  return readTied(network, tied, one => readWith(one, measurement, effort(), isBlock));
}

/** Ids of the elements whose value can move the reading, in the order of the network. */
export function influences(network: Network, measurement: Measurement): string[] {
  const found = coreFor(network, measurement);
  if (found.state !== 'core') return [];
  const { core } = found;
  const moving = core.sources.filter(
    ({ direct, injected }, k) =>
      direct !== 0 || injected.length > 0 || core.branches.some(branch => branch.emf[k] !== 0),
  );
  const ids = new Set(moving.map(source => source.id));
  // Without anything that drives it, a voltage or a current is 0 whatever the resistances are.
  if (moving.length > 0 || measurement.measure === 'resistance') {
    for (const { part } of core.branches) if (part.kind === 'element') ids.add(part.id);
  }
  return network.elements.map(element => element.id).filter(id => ids.has(id));
}

type Of<Kind> = Extract<Measurement, { measure: Kind }>;

function readWith(network: Network, measurement: Measurement, effort: Effort, isBlock = false): Reading {
  const found = coreFor(network, measurement, isBlock);
  if (found.state === 'floating' && measurement.measure === 'resistance') {
    return { state: 'over-limit', why: 'no path' };
  }
  if (found.state !== 'core') return found;
  const core = reduce(found.core);
  if (measurement.measure === 'resistance') return readResistance(core, measurement);
  const startingAtZero = core.branches.filter(({ part }) => part.ohms.low === 0);
  if (startingAtZero.length > 0) {
    return readThroughZeros(network, core, startingAtZero, variant => readWith(variant, measurement, effort));
  }
  return readCore(core, effort);
}

function coreFor(network: Network, measurement: Measurement, isBlock = false): Extracted {
  switch (measurement.measure) {
    case 'voltage':
    case 'current': {
      const { network: metered, probe } = connectMeter(network, measurement);
      return extract(metered, probe, isBlock && measurement.measure === 'voltage');
    }
    case 'resistance': {
      const { red, black } = measurement;
      return extract(withDeadSources(network), { kind: 'resistance', red, black });
    }
    case 'clamp': {
      const element = network.elements.find(candidate => candidate.id === measurement.element);
      if (!element) return unknownElement(measurement.element);
      if (element.kind === 'current') return currentSourceAlone(network, element);
      const { network: clamped, probe } = attachClamp(network, element);
      return extract(clamped, probe, isBlock);
    }
  }
}

function unknownElement(id: string): Extracted {
  return { state: 'unsolvable', problems: [{ kind: 'unknown-element', element: id }] };
}

/** A current source is a circuit of its own as far as its current goes. */
function currentSourceAlone(network: Network, source: CurrentSource): Extracted {
  const problems = checkTopology(network).filter(problem => 'element' in problem && problem.element === source.id);
  if (problems.length > 0) return { state: 'unsolvable', problems };
  const own = { id: source.id, kind: source.kind, range: source.amps, injected: [], direct: 1 };
  return { state: 'core', core: { nodeCount: 1, branches: [], sources: [own], leads: null } };
}

function readCore(core: Core, effort: Effort): Reading {
  const nominal = operate(
    core,
    planCore(core),
    Float64Array.from(core.branches, ({ part }) => 1 / part.ohms.nominal),
    core.sources.map(source => source.range.nominal),
  ).reading;
  if (core.branches.every(({ part }) => isExact(part.ohms)) && core.sources.every(({ range }) => isExact(range))) {
    return numberReading(nominal, sharp(nominal), sharp(nominal));
  }
  const { low, high } = extremes(core, effort);
  const named = ({ attained, bound, corner }: Extreme): End => ({ attained, bound, at: nameCorner(core, corner) });
  return numberReading(nominal, named(low), named(high));
}

/** All members at one end give that end, for a resistance between two points rises with every resistance inside. */
function readResistance(core: Core, { leadsOhms, overLimitOhms }: Of<'resistance'>): Reading {
  const leads = core.leads!;
  const [low, nominal, high] = (['low', 'nominal', 'high'] as const).map(end => {
    const { ohms, perOhm } = resistanceBetween(core, leads, end);
    const at = end === 'nominal' ? [] : nameBranches(core, end, perOhm);
    return { ...sharp(ohms + leadsOhms[end]), at };
  });
  if (low!.bound > overLimitOhms) return { state: 'over-limit', why: 'above range' };
  return numberReading(nominal!.bound, low!, high!);
}

function sharp(value: number): End {
  return { attained: value, bound: value, at: [] };
}
