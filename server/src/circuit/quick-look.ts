import { type EliminationPlan, StarMesh } from '../numeric/star-mesh.ts';
import { type Frame, graphWithout } from './graph.ts';
import { type Element, isIdealConnection, type Network, type NodeId, type Resistance, rangeOf } from './network.ts';
import type { SourceForest } from './source-forest.ts';
import { hasUsableValue } from './topology.ts';

/**
 * What a network does at nominal values, with bounds that cost little: wide ones, but nothing passes them. Most questions whether a
 * voltage is above a threshold are answered by that alone, and only the others are worth the ends that are reached.
 */
export class QuickLook {
  private readonly nodeOf: Int32Array;
  private readonly islandOf: Int32Array;
  private readonly equations: Equations;
  private readonly mesh: StarMesh;
  private readonly nominal: Float64Array;
  private outline: Outline | undefined | 'none';
  private widest: number | undefined;

  private constructor(nodeOf: Int32Array, islandOf: Int32Array, equations: Equations) {
    this.nodeOf = nodeOf;
    this.islandOf = islandOf;
    this.equations = equations;
    const siemens = new Float64Array(equations.resistances.length);
    for (let j = 0; j < siemens.length; j++) siemens[j] = 1 / equations.resistances[j]!.ohms.nominal;
    const values = Float64Array.from(equations.sources, source => rangeOf(source).nominal);
    this.mesh = new StarMesh(equations.plan, siemens);
    this.nominal = equations.voltages(this.mesh, siemens, values);
  }

  /** Nothing where the network has no solution. */
  static at(network: Network): QuickLook | undefined {
    const graph = graphWithout(network, isNothing);
    const frame = graph.frame(network.elements);
    if (!frame.isSound || !network.elements.every(hasUsableValue)) return undefined;
    const look = new QuickLook(graph.nodeOf, frame.islandOf, new Equations(network, graph.nodeOf, frame));
    // What may be something is a connection in these equations, so that they say nothing about its range.
    if (network.elements.some(element => isNothing(element) && !isIdealConnection(element))) look.outline = 'none';
    return look;
  }

  /** Volts at nominal values, of the first node above the second; nothing where nothing ties the two together. */
  between(red: NodeId, black: NodeId): number | undefined {
    const [a, b] = [this.nodeOf[red]!, this.nodeOf[black]!];
    return this.islandOf[a] === this.islandOf[b] ? this.nominal[a]! - this.nominal[b]! : undefined;
  }

  /** Amperes at nominal values; nothing for what is no resistance. */
  through({ a, b, ohms }: Resistance): number {
    return ohms.nominal === 0 ? 0 : (this.between(a, b) ?? 0) / ohms.nominal;
  }

  /**
   * Ohms between the two while all sources are dead, which no combination of values passes: with every resistance at most `k` times its
   * nominal value, the whole is. Nothing where nothing ties the two together, or where of use can be told at so little expense.
   */
  mostOhms(red: NodeId, black: NodeId): number | undefined {
    const [a, b] = [this.nodeOf[red]!, this.nodeOf[black]!];
    if (this.outline === 'none' || this.islandOf[a] !== this.islandOf[b]) return undefined;
    const { plan, groupOf, resistances } = this.equations;
    const [plus, minus] = [groupOf[a]!, groupOf[b]!];
    if (plus === minus) return 0;
    const injected = new Float64Array(plan.nodeCount);
    injected[plus] = 1;
    injected[minus] = -1;
    const volts = this.mesh.solve(injected);
    this.widest ??= resistances.reduce((most, { ohms: { nominal, high } }) => Math.max(most, high / nominal), 1);
    return this.widest * (volts[plus]! - volts[minus]!);
  }

  /** Volts that no combination of values passes; nothing where nothing of use can be told at so little expense. */
  range(red: NodeId, black: NodeId): { readonly low: number; readonly high: number } | undefined {
    this.outline ??= Outline.of(this.equations) ?? 'none';
    const [a, b] = [this.nodeOf[red]!, this.nodeOf[black]!];
    if (this.outline === 'none' || this.islandOf[a] !== this.islandOf[b]) return undefined;
    return this.outline.range(a, b);
  }
}

/** Looked at once for each network. */
export function quickLook(network: Network): QuickLook | undefined {
  const before = known.get(network);
  if (before !== undefined) return before ?? undefined;
  const fresh = QuickLook.at(network);
  known.set(network, fresh ?? null);
  return fresh;
}

const known = new WeakMap<Network, QuickLook | null>();

/** What may be something but is nothing at its nominal value is a connection there. */
function isNothing(element: Element): boolean {
  return element.kind === 'resistance' && element.ohms.nominal === 0;
}

/** The equations of a network, for any choice of its values. Works on merged nodes; groups are only met inside. */
class Equations {
  readonly resistances: readonly Resistance[];
  readonly sources: readonly Exclude<Element, Resistance>[];
  readonly plan: EliminationPlan;
  /** Ends of each resistance as merged nodes and as groups that voltage sources tie together. */
  readonly a: Int32Array;
  readonly b: Int32Array;
  readonly groupA: Int32Array;
  readonly groupB: Int32Array;
  readonly groupOf: Int32Array;
  readonly #nodeOf: Int32Array;
  readonly #forest: SourceForest;

  constructor({ elements }: Network, nodeOf: Int32Array, frame: Frame) {
    this.#nodeOf = nodeOf;
    this.#forest = frame.forest;
    this.groupOf = frame.forest.groupOf;
    this.plan = frame.plan;
    this.a = frame.a;
    this.b = frame.b;
    this.groupA = frame.groupA;
    this.groupB = frame.groupB;
    this.resistances = Array.from(frame.resistances, place => elements[place] as Resistance);
    this.sources = Array.from(frame.sources, place => elements[place] as Exclude<Element, Resistance>);
  }

  /** Volts by merged node for these values of the sources, by a mesh of these conductances. */
  voltages(mesh: StarMesh, siemens: Float64Array, values: ArrayLike<number>): Float64Array {
    const { groupOf, a, b, groupA, groupB } = this;
    const volts = this.#forest.offsets(values);
    const injected = new Float64Array(this.#forest.groupCount);
    for (let k = 0; k < this.sources.length; k++) {
      const source = this.sources[k]!;
      if (source.kind !== 'current') continue;
      injected[groupOf[this.#nodeOf[source.from]!]!]! -= values[k]!;
      injected[groupOf[this.#nodeOf[source.to]!]!]! += values[k]!;
    }
    for (let j = 0; j < siemens.length; j++) {
      const amps = siemens[j]! * (volts[a[j]!]! - volts[b[j]!]!);
      injected[groupA[j]!]! -= amps;
      injected[groupB[j]!]! += amps;
    }
    const potential = mesh.solve(injected);
    for (let node = 0; node < volts.length; node++) volts[node]! += potential[groupOf[node]!]!;
    return volts;
  }
}

/**
 * Bounds from one solution in the middle of the tolerances, by norms alone (the identities stand in `enclosure.ts`): with `w` the
 * volts that drive each resistance times the root of its conductance, `l` the same of the adjoint network, `d` how far each conductance
 * may be off, as a part of itself,
 *
 *     |y - y0|  <=  sum_j |l_j| d_j |w0_j|  +  |D l| |w - w0|          |w - w0|  <=  |D w0| / (1 - max d)
 *
 * where `w0` is widened by all that the sources may be off.
 */
class Outline {
  private readonly equations: Equations;
  private readonly mesh: StarMesh;
  private readonly centre: Float64Array;
  /** What each source that is not known exactly does to each node over half of its range. */
  private readonly reaches: readonly Float64Array[];
  private readonly off: Float64Array;
  private readonly root: Float64Array;
  /** `d_j |w0_j|`, and the bound of `|w - w0|`. */
  private readonly driven: Float64Array;
  private readonly spread: number;

  private constructor(equations: Equations) {
    const { resistances, sources, a, b, groupA, groupB } = equations;
    this.equations = equations;
    const siemens = new Float64Array(resistances.length);
    this.off = new Float64Array(resistances.length);
    this.root = new Float64Array(resistances.length);
    let furthest = 0;
    for (let j = 0; j < siemens.length; j++) {
      const { low, high } = resistances[j]!.ohms;
      siemens[j] = (1 / low + 1 / high) / 2;
      this.root[j] = Math.sqrt(siemens[j]!);
      // What lies across a source has its voltage whatever the others are, and no say in any other.
      this.off[j] = groupA[j] === groupB[j] ? 0 : (high - low) / (high + low);
      if (this.off[j]! > furthest) furthest = this.off[j]!;
    }
    this.mesh = new StarMesh(equations.plan, siemens);
    const ranges = sources.map(rangeOf);
    const middle = Float64Array.from(ranges, ({ low, high }) => (low + high) / 2);
    this.centre = equations.voltages(this.mesh, siemens, middle);
    this.reaches = ranges.flatMap(({ low, high }, k) => {
      if (low === high) return [];
      const alone = new Float64Array(ranges.length);
      alone[k] = (high - low) / 2;
      return [equations.voltages(this.mesh, siemens, alone)];
    });
    this.driven = new Float64Array(resistances.length);
    let norm = 0;
    for (const volts of [this.centre, ...this.reaches]) {
      let sum = 0;
      for (let j = 0; j < this.driven.length; j++) {
        const moved = this.off[j]! * this.root[j]! * Math.abs(volts[a[j]!]! - volts[b[j]!]!);
        this.driven[j]! += moved;
        sum += moved * moved;
      }
      norm += Math.sqrt(sum);
    }
    this.spread = norm / (1 - furthest);
  }

  /** Nothing for what may be a connection at one end of its range. */
  static of(equations: Equations): Outline | undefined {
    return equations.resistances.every(({ ohms }) => ohms.low > 0) ? new Outline(equations) : undefined;
  }

  range(red: number, black: number): { low: number; high: number } {
    const { groupOf, groupA, groupB, plan } = this.equations;
    const injected = new Float64Array(plan.nodeCount);
    injected[groupOf[red]!]! += 1;
    injected[groupOf[black]!]! -= 1;
    const adjoint = this.mesh.solve(injected);
    let reach = 0;
    let norm = 0;
    for (let j = 0; j < this.off.length; j++) {
      if (this.off[j] === 0) continue;
      const moved = this.root[j]! * Math.abs(adjoint[groupA[j]!]! - adjoint[groupB[j]!]!);
      reach += moved * this.driven[j]!;
      norm += (moved * this.off[j]!) ** 2;
    }
    reach += Math.sqrt(norm) * this.spread;
    for (const volts of this.reaches) reach += Math.abs(volts[red]! - volts[black]!);
    const middle = this.centre[red]! - this.centre[black]!;
    reach += ROUNDING * (1 + reach + Math.abs(middle));
    return { low: middle - reach, high: middle + reach };
  }
}

/** Far above the rounding of a solve, far below what a threshold is told apart by. */
const ROUNDING = 1e-6;
