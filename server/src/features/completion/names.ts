import { URI } from 'vscode-uri';
import { faultsOf } from '../../analysis/faults/derive.ts';
import { dimensionFacts } from '../../base/quantity/dimension.ts';
import { ownStates, type Part, type PartData } from '../../model/parts.ts';
import { type Sight, sightsIn } from '../../model/sights.ts';
import type { System } from '../../model/system.ts';
import { type FileKind, fileKindOf } from '../../schema/root.ts';
import type { NameKind } from '../../schema/shape.ts';
import { dataOf } from '../names/lookup.ts';
import { ruleIds } from '../rule-pages.ts';
import type { Word } from './candidate.ts';
import type { Scene } from './scene.ts';

/** Every name of a kind that is valid in this scene. */
export function namesOf(kind: NameKind, scene: Scene): Word[] {
  const make = makers[kind];
  return make ? once(make(scene)) : [];
}

type Maker = (scene: Scene) => Word[];

const fromSystems =
  (words: (system: System, scene: Scene) => Word[]): Maker =>
  scene =>
    scene.systems.flatMap(system => words(system, scene));

const parts = fromSystems(system => [...system.parts.values()].map(partWord));
const connectors = fromSystems(system =>
  [...system.connectors.values()].map(c => word(c.id, about('connector', c.title))),
);
const grounds = fromSystems(system => [...system.grounds.values()].map(g => word(g.id, about('ground', g.title))));
const splices = fromSystems(system => [...system.splices.values()].map(s => word(s.id, about('splice', s.title))));
const wires = fromSystems(system =>
  system.wires.map(w => word(w.id, `${w.from?.text ?? '…'} to ${w.to?.text ?? '…'}${w.colour ? `, ${w.colour}` : ''}`)),
);
const conditions = fromSystems(system =>
  [...system.conditions.values()].map(c => word(c.id, about('condition', c.title))),
);
const steps: Maker = ({ procedure }) =>
  [...(procedure?.steps.values() ?? [])].map(s => word(s.id, about(s.data.action.verb, s.data.title)));
const endings: Maker = ({ procedure }) =>
  [...(procedure?.endings.values() ?? [])].map(e => word(e.id, about(e.data.kind)));
const points = fromSystems(system => [
  ...[...system.parts.values()].flatMap(part => terminalsOf(part).map(t => word(`${part.id}.${t.text}`, t.detail))),
  ...[...system.connectors.values()].flatMap(c => c.cavities.map(v => word(`${c.id}/${v.text}`, c.title ?? 'cavity'))),
]);
const repairables: Maker = scene => [parts, wires, connectors, grounds, splices].flatMap(make => make(scene));
const failures = fromSystems(system =>
  [...system.parts.values()].flatMap(part => failuresOf(part).map(text => word(`${part.id} ${text}`, 'failure'))),
);
const faults = fromSystems(system =>
  system.variants.flatMap(variant => faultsOf(system, variant).map(({ id, title }) => word(id, title))),
);

const sights = (sort: Sight['sort']) =>
  fromSystems(system =>
    [...sightsIn(system).values()].filter(one => one.sort === sort).map(one => word(one.name, about(sort, one.title))),
  );

const makers: Partial<Record<NameKind, Maker>> = {
  variant: fromSystems(system => system.variants.map(id => word(id, system.variantDecls.get(id)?.title ?? 'variant'))),
  condition: conditions,
  part: scene => (isSetting(scene) ? settableParts(scene) : parts(scene)),
  state: statesHere,
  load: sights('load'),
  output: sights('output'),
  position: scene => ownPart(scene).flatMap(part => statesOf(part).map(text => word(text, 'position'))),
  button: scene => ownPart(scene).flatMap(part => statesOf(part).map(text => word(text, 'button'))),
  terminal: scene => ownPart(scene).flatMap(terminalsOf),
  pin: scene => ownPart(scene).flatMap(terminalsOf),
  failure: scene => ownPart(scene).flatMap(part => failuresOf(part).map(text => word(text, 'failure'))),
  connector: connectors,
  ground: grounds,
  splice: splices,
  wire: wires,
  point: scene => [...points(scene), ...grounds(scene), ...splices(scene)],
  cavity: fromSystems(system =>
    [...system.connectors.values()].flatMap(c => c.cavities.map(v => word(`${c.id}/${v.text}`, c.title ?? 'cavity'))),
  ),
  'scan data': scene => {
    const own = ownPart(scene).flatMap(part => scanDataOf(part).map(text => word(text, 'scan data')));
    return own.length > 0 ? own : allScanData(scene);
  },
  specification: fromSystems(system =>
    [...system.specifications.values()].flatMap(s =>
      s.rows.size === 0 ? [word(s.id, s.title)] : [...s.rows.keys()].map(row => word(`${s.id}/${row}`, s.title)),
    ),
  ),
  repairable: repairables,
  fault: scene =>
    scene.above.includes('faults') ? faults(scene) : [...failures(scene), ...repairables(scene), ...faults(scene)],
  owner: scene => [...steps(scene), ...endings(scene), ...repairables(scene), ...conditions(scene)],
  step: steps,
  ending: endings,
  answer: ({ procedure, above }) => {
    const step = above.map(name => procedure?.steps.get(name)).find(found => found !== undefined);
    return (step?.data.branches ?? []).flatMap(b => (b.match.on === 'answer' ? [word(b.key.text, 'answer')] : []));
  },
  start: ({ procedure }) =>
    (procedure?.entries ?? []).flatMap(({ symptom, code }) => [
      ...(symptom ? [word(symptom.text, 'symptom')] : []),
      ...(code ? [word(code.text, 'code')] : []),
    ]),
  tool: ({ procedure }) => (procedure?.tools ?? []).map(tool => word(tool.text, 'tool')),
  rule: () => ruleIds().map(id => word(id, 'rule')),
  'system file': scene => filesOf('system', scene),
  'procedure file': scene => filesOf('procedure', scene),
};

/** The states of what the cursor stands under or, at `expect`, of what the step reads. */
function statesHere({ systems, above, procedure, step, part }: Scene): Word[] {
  return systems.flatMap(system => {
    const sight = above[1] === 'when' && part === undefined ? sightsIn(system).get(above[0]!) : undefined;
    if (sight) return statesSeen(sight);
    for (const name of above) {
      const condition = system.conditions.get(name);
      if (condition) return condition.states.map(state => word(state.text, `of ${name}`));
      const found = system.parts.get(name);
      const own = found && name !== part ? statesOf(found) : [];
      if (own.length > 0) return own.map(text => word(text, `of ${name}`));
      const module = part === undefined ? undefined : system.parts.get(part);
      const datum = module ? datumStates(module, name) : [];
      if (datum.length > 0) return datum.map(text => word(text, `of ${name}`));
    }
    const action = step === undefined ? undefined : procedure?.steps.get(step)?.data.action;
    const reading = action?.verb === 'read' && action.module ? system.parts.get(action.module.text) : undefined;
    if (!reading || action?.verb !== 'read' || !action.datum) return [];
    return datumStates(reading, action.datum.text).map(text => word(text, 'state'));
  });
}

/** A number is tested by a limit. */
function statesSeen({ name, states, dimension }: Sight): Word[] {
  if (states.length > 0) return states.map(text => word(text, `of ${name}`));
  const example = dimension ? dimensionFacts[dimension].example : '5';
  return ['below', 'above'].map(text => word(`${text} ${example}`, 'limit'));
}

function isSetting({ above }: Scene): boolean {
  return above.some(key => ['set', 'needs', 'when', 'until', 'closed'].includes(key));
}

function settableParts({ systems }: Scene): Word[] {
  return systems.flatMap(system => [...system.parts.values()].filter(part => statesOf(part).length > 0).map(partWord));
}

function ownPart({ systems, part }: Scene): Part[] {
  return part === undefined ? [] : systems.flatMap(system => system.parts.get(part) ?? []);
}

function allScanData({ systems }: Scene): Word[] {
  return systems.flatMap(system =>
    [...system.parts.values()].flatMap(part => scanDataOf(part).map(text => word(`${part.id} ${text}`, 'scan data'))),
  );
}

function filesOf(kind: FileKind, { project, view }: Scene): Word[] {
  return project
    .uris()
    .filter(uri => fileKindOf(uri) === kind && uri !== view.uri)
    .map(uri => ({ text: relative(view.uri, uri), kind: 'file' as const }));
}

/** The second address as seen from the first. */
function relative(from: string, to: string): string {
  const [a, b] = [from, to].map(uri => URI.parse(uri).path.split('/'));
  let same = 0;
  while (same < a.length - 1 && a[same] === b[same]) same++;
  return [...a.slice(same + 1).map(() => '..'), ...b.slice(same)].join('/');
}

function partWord(part: Part): Word {
  return word(part.id, about(part.data.kind, part.title));
}

function terminalsOf(part: Part): Word[] {
  return dataOf(part).flatMap(data => [
    ...data.terminals.map(terminal => word(terminal.text, pinName(data, terminal.text) ?? part.title ?? data.kind)),
  ]);
}

function pinName(data: PartData, terminal: string): string | undefined {
  return data.kind === 'module' ? data.pins.get(terminal)?.name : undefined;
}

function statesOf(part: Part): string[] {
  return [...new Set(dataOf(part).flatMap(data => [...ownStates(data)]))];
}

function failuresOf(part: Part): string[] {
  return dataOf(part).flatMap(data => (data.kind === 'item' ? [...data.fails.keys()] : []));
}

function scanDataOf(part: Part): string[] {
  return dataOf(part).flatMap(data => (data.kind === 'module' ? [...data.scanData.keys()] : []));
}

function datumStates(part: Part, datum: string): string[] {
  return dataOf(part).flatMap(data =>
    data.kind === 'module' ? (data.scanData.get(datum)?.states ?? []).map(state => state.name.text) : [],
  );
}

function about(...words: (string | undefined)[]): string {
  return words.filter(text => text !== undefined && text !== '').join(' · ');
}

function word(text: string, detail?: string): Word {
  return { text, ...(detail && { detail }) };
}

function once(words: readonly Word[]): Word[] {
  return [...new Map(words.map(one => [one.text, one])).values()];
}
