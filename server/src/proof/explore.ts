import { follow } from '../analysis/make-flow.ts';
import type { Situation } from '../analysis/situation.ts';
import type { PartValue } from '../circuit/reading.ts';
import type { EndingData } from '../model/procedure.ts';
import type { StepData } from '../model/step.ts';
import { type Position, stand } from '../walk/walk.ts';
import { noAnswer, type Outcome, type Outcomes } from './outcome.ts';
import { mended, type Patient } from './patient.ts';
import { doStep, type Moment } from './step.ts';
import { isRightly } from './verdict.ts';

/** One step of a way through the procedure, with what is read there and what that leads to. */
export interface Move {
  readonly at: string;
  readonly data: StepData;
  readonly outcome: Outcome;
  /** Between what and what the reading is. */
  readonly range?: (Outcomes & { kind: 'leads on' })['range'];
  /** How the machine is while it is read. */
  readonly situation: Situation;
}

/** Where a way through the procedure ends, with the shortest such way. */
export type End =
  | { readonly kind: 'ending'; readonly name: string; readonly data: EndingData; readonly path: readonly Move[] }
  | {
      readonly kind: 'stuck';
      readonly at: string;
      readonly why: string;
      readonly text: string;
      readonly path: readonly Move[];
    }
  /** A branch leads to what is not there, or a step shows what is not computed. */
  | { readonly kind: 'unknown'; readonly at: string; readonly why: string; readonly path: readonly Move[] };

/** Everything that can happen to a patient from one way in. */
export interface Exploration {
  readonly ends: readonly End[];
  /** By step: the branches that may be taken there; of the faulty machine only. */
  readonly taken: ReadonlyMap<string, ReadonlySet<Outcome['branch']>>;
  /** By ending: fuses and breakers that have gone when the faulty machine comes there. */
  readonly gone: ReadonlyMap<string, ReadonlySet<string>>;
  /** All that it depends on: steps and endings that were met, as they were then. */
  readonly met: ReadonlyMap<string, StepData | EndingData | undefined>;
}

/** A walk is kept for long; what its readings come from is of use until it is judged, and large. */
export interface Explored {
  readonly exploration: Exploration;
  /** The combinations behind both ends of a reading, where tolerances decide. */
  readonly corners: ReadonlyMap<Move, readonly (readonly PartValue[])[]>;
}

interface Node {
  readonly name: string;
  readonly moment: Moment;
  readonly patient: Patient;
  readonly before?: { readonly node: Node; readonly move: Move };
  /** Nodes that can be come to from here. */
  readonly next: Edge[];
  isOver: boolean;
}

interface Edge {
  readonly to: Node;
  readonly move: Move;
}

/** Why a way comes to no end although every step leads on. */
export const goesRound = 'It goes round for ever';

/** So many places of one walk are looked at; no procedure that a person wrote comes near. */
const mostNodes = 5_000;

const tooFar = 'More ways lead here than are followed';

/**
 * Follows every branch that a patient may take, the shortest ways first. `ready` is how the machine is when the technician arrives. A
 * question that is taken back leaves unknown what has not been followed.
 */
export function explore(
  patient: Patient,
  start: string,
  ready: Moment,
  cancelled: () => boolean = () => false,
): Explored {
  const corners = new Map<Move, readonly (readonly PartValue[])[]>();
  const ends = new Map<string, End>();
  const taken = new Map<string, Set<Outcome['branch']>>();
  const gone = new Map<string, Set<string>>();
  const met = new Map<string, StepData | EndingData | undefined>();
  const nodes = new Map<string, Node>();
  const queue: Node[] = [];
  let repaired: Patient | undefined;
  const come = (from: Patient, name: string, moment: Moment, before?: Node['before']) => {
    const key = [name, from === patient ? '' : 'mended', moment.blown.join(), moment.situation.key].join('|');
    const known = nodes.get(key);
    if (known) {
      if (before) before.node.next.push({ to: known, move: before.move });
      return;
    }
    const node: Node = { name, moment, patient: from, before, next: [], isOver: false };
    nodes.set(key, node);
    if (before) before.node.next.push({ to: node, move: before.move });
    if (nodes.size < mostNodes) queue.push(node);
    else over(node, { kind: 'unknown', at: name, why: tooFar, path: pathTo(node) });
  };
  const over = (node: Node, end: End) => {
    node.isOver = true;
    const key = end.kind === 'ending' ? `ending ${end.name}` : `${end.kind} ${end.at}`;
    if (node.patient === patient && !ends.has(key)) ends.set(key, end);
  };
  come(patient, start, ready);
  for (let i = 0; i < queue.length; i++) {
    const node = queue[i]!;
    if (cancelled()) over(node, { kind: 'unknown', at: node.name, why: tooFar, path: pathTo(node) });
    else visit(node);
  }
  const own = [...nodes.values()].filter(node => node.patient === patient);
  const deadEnd = ringIn(withoutWayOut(own), ({ next }) => next);
  // One machine has its way out wherever the error of the meter may show it.
  const ring = deadEnd ?? (patient.specimen ? undefined : ringIn(own, decidedByValues));
  if (ring) {
    const path = [...pathTo(ring.node), ...(deadEnd ? [] : ring.moves)];
    over(ring.node, { kind: 'stuck', at: ring.node.name, why: goesRound, text: '', path });
  }
  return { exploration: { ends: [...ends.values()], taken, gone, met }, corners };

  function visit(node: Node): void {
    const position = stand(node.patient.course, node.name);
    met.set(node.name, position.kind === 'nowhere' ? undefined : position.data);
    const path = () => pathTo(node);
    if (position.kind === 'nowhere')
      over(node, { kind: 'unknown', at: node.name, why: position.problem.message, path: path() });
    else if (position.kind === 'ending') end(node, position);
    else step(node, position.data);
  }

  function step(node: Node, data: StepData): void {
    const { after, outcomes } = doStep(node.patient, data, node.moment);
    const at = node.name;
    const path = () => pathTo(node);
    if (outcomes.kind === 'stuck')
      over(node, { kind: 'stuck', at, why: outcomes.why, text: outcomes.text, path: path() });
    else if (outcomes.kind === 'unknown') over(node, { kind: 'unknown', at, why: outcomes.why, path: path() });
    else {
      for (const outcome of outcomes.outcomes) {
        const move: Move = {
          at,
          data,
          outcome,
          range: outcomes.range,
          situation: after.situation,
        };
        if (outcomes.ends.length > 0) corners.set(move, outcomes.ends);
        if (node.patient === patient) add(taken, at, outcome.branch);
        const to = outcome.branch?.target?.text;
        if (to !== undefined) come(node.patient, to, after, { node, move });
        else if (outcome.branch)
          over(node, { kind: 'unknown', at, why: 'The branch leads nowhere', path: [...path(), move] });
        else {
          const why = outcome.text === '' ? noAnswer : `No branch takes \`${outcome.text}\``;
          over(node, { kind: 'stuck', at, why, text: outcome.text, path: [...path(), move] });
        }
      }
    }
  }

  function end(node: Node, { name, data, confirm }: Position & { kind: 'ending' }): void {
    over(node, { kind: 'ending', name, data, path: pathTo(node) });
    if (node.patient === patient) for (const fuse of node.moment.blown) add(gone, name, fuse);
    if (confirm === undefined || node.patient !== patient || !isRightly(data, patient.faults)) return;
    // A repair is confirmed on a machine that is whole again.
    repaired ??= mended(patient);
    come(repaired, confirm, { situation: follow(data, node.moment.situation, patient.circuit), blown: [] });
  }
}

function add<T>(to: Map<string, Set<T>>, at: string, one: T): void {
  const known = to.get(at);
  if (known) known.add(one);
  else to.set(at, new Set([one]));
}

function pathTo(node: Node): readonly Move[] {
  const moves: Move[] = [];
  for (let at = node.before; at; at = at.node.before) moves.push(at.move);
  return moves.reverse();
}

/** Places from which no way leads to an end. */
function withoutWayOut(nodes: readonly Node[]): readonly Node[] {
  const before = new Map<Node, Node[]>();
  for (const node of nodes) for (const { to } of node.next) before.set(to, [...(before.get(to) ?? []), node]);
  const ending = new Set(nodes.filter(({ isOver }) => isOver));
  for (const node of ending) for (const earlier of before.get(node) ?? []) ending.add(earlier);
  return nodes.filter(node => !ending.has(node));
}

/** Ways that one machine takes whenever it comes here; none where somebody's answer may lead it out. */
function decidedByValues({ next }: Node): readonly Edge[] {
  const isOpen = next.some(({ move }) => move.outcome.why === 'open');
  return isOpen ? [] : next.filter(({ move }) => move.outcome.why !== 'enclosed');
}

/** A way that comes back to where it began, among these places and by these edges. */
function ringIn(nodes: readonly Node[], edgesOf: (node: Node) => readonly Edge[]) {
  // What leads to no ring is taken away, the last first, until nothing changes.
  const left = new Set(nodes);
  const onward = (node: Node) => edgesOf(node).find(({ to }) => left.has(to));
  for (let before = -1; before !== left.size; ) {
    before = left.size;
    for (const node of [...left].reverse()) if (!onward(node)) left.delete(node);
  }
  const [first] = left;
  if (!first) return undefined;
  const passed = new Map<Node, Edge>();
  let node = first;
  for (; !passed.has(node); node = passed.get(node)!.to) passed.set(node, onward(node)!);
  const moves: Move[] = [];
  for (let at = node; moves.length === 0 || at !== node; at = passed.get(at)!.to) moves.push(passed.get(at)!.move);
  return { node, moves };
}
