import { planElimination, StarMesh } from '../numeric/star-mesh.ts';
import type { CurrentSource, Element, Network, Resistance, VoltageSource } from './network.ts';
import { type SourceForest, sourceForest } from './source-forest.ts';
import { mergedNodes } from './topology.ts';

/** The equations of a network without topology problems, factored for one choice of values. */
export interface Assembled {
  /** Number of each node once ideal connections are merged, and how many there are. */
  nodeOf: Int32Array;
  count: number;
  /** Those between two different nodes. */
  resistances: Resistance[];
  voltageSources: VoltageSource[];
  currentSources: CurrentSource[];
  /** Groups of merged nodes that voltage sources tie together; a source has the same number here and in `voltageSources`. */
  forest: SourceForest;
  /** Groups at the ends of each resistance, and its conductance in siemens. */
  from: number[];
  to: number[];
  siemens: Float64Array;
  mesh: StarMesh;
}

export function assemble(network: Network, chosen: (element: Element) => number): Assembled {
  const { of: nodeOf, count } = mergedNodes(network);
  const resistances: Resistance[] = [];
  const voltageSources: VoltageSource[] = [];
  const currentSources: CurrentSource[] = [];
  for (const element of network.elements) {
    if (element.kind === 'voltage') voltageSources.push(element);
    else if (element.kind === 'current') currentSources.push(element);
    else if (nodeOf[element.a] !== nodeOf[element.b]) resistances.push(element);
  }
  const forest = sourceForest(
    count,
    voltageSources.map(({ plus }) => nodeOf[plus]!),
    voltageSources.map(({ minus }) => nodeOf[minus]!),
  );
  const from = resistances.map(({ a }) => forest.groupOf[nodeOf[a]!]!);
  const to = resistances.map(({ b }) => forest.groupOf[nodeOf[b]!]!);
  const siemens = Float64Array.from(resistances, resistance => 1 / chosen(resistance));
  const mesh = new StarMesh(planElimination(forest.groupCount, from, to), siemens);
  return { nodeOf, count, resistances, voltageSources, currentSources, forest, from, to, siemens, mesh };
}
