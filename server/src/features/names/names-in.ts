import type { FileView, ProcedureView } from '../../analysis/view.ts';
import type { System } from '../../model/system.ts';
import { type Entry, find, type Node } from '../../syntax/tree.ts';
import type { Project, Stretch } from '../project.ts';
import { touches } from '../project.ts';
import { namesInProcedure } from './in-procedure.ts';
import { namesInSamples } from './in-samples.ts';
import { namesInSystem } from './in-system.ts';
import { lookupIn } from './lookup.ts';
import { mentions } from './mention.ts';
import { isSame, type Occurrence, type Thing } from './thing.ts';

const known = new WeakMap<FileView, readonly Occurrence[]>();

/** Every name in a file that was understood, each place and meaning once. */
export function namesIn(view: FileView): readonly Occurrence[] {
  const before = known.get(view);
  if (before) return before;
  const names = once([...ofKind(view), ...overlaidVariants(view)].filter(({ place }) => place.uri === view.uri));
  known.set(view, names);
  return names;
}

/** The names that the offset touches: several where two systems have a thing of that name. */
export function namesAt(view: FileView, offset: number): Occurrence[] {
  const touched = namesIn(view)
    .map(occurrence => ({ occurrence, ...view.tree.absolute(occurrence.place.span) }))
    .filter(stretch => touches(stretch, offset));
  // Between `A1` and `.14` both are touched; what begins at the cursor is meant.
  const start = Math.max(...touched.map(stretch => stretch.start));
  return touched.filter(stretch => stretch.start === start).map(({ occurrence }) => occurrence);
}

/** Every place in the project that names the thing. */
export function occurrencesOf(project: Project, thing: Thing): Occurrence[] {
  const files = new Set([thing.uri, ...project.dependents(thing.uri)]);
  return [...files].flatMap(uri => {
    const view = project.view(uri);
    return view ? namesIn(view).filter(occurrence => isSame(occurrence.thing, thing)) : [];
  });
}

/** Where a stretch of names stands in its file. */
export function stretchOf(view: FileView, { place }: Occurrence): Stretch {
  return view.tree.absolute(place.span);
}

export function systemsOf(view: ProcedureView): System[] {
  return [...view.systems.values()].flatMap(found => (found ? [found.system] : []));
}

function ofKind(view: FileView): Occurrence[] {
  if (view.kind === 'system') return namesInSystem(view.system);
  if (view.kind === 'procedure') return namesInProcedure(view.procedure, systemsOf(view));
  if (view.kind === 'samples' && view.procedure)
    return namesInSamples(view.samples, view.procedure.procedure, systemsOf(view.procedure));
  return [];
}

/** The variants under which `by variant` says something else. */
function overlaidVariants(view: FileView): Occurrence[] {
  const systems = view.kind === 'system' ? [view.system] : view.kind === 'procedure' ? systemsOf(view) : [];
  const lookups = systems.map(lookupIn);
  return overlaysIn(view.tree.root).flatMap(({ key }) =>
    lookups.flatMap(lookup => mentions({ text: key.text, place: { uri: view.uri, span: key.span } }, lookup.variant)),
  );
}

function overlaysIn(node: Node): Entry[] {
  if (node.kind === 'list') return node.items.flatMap(overlaysIn);
  if (node.kind !== 'map') return [];
  const own = find(node, 'by variant')?.value;
  return [...(own?.kind === 'map' ? own.entries : []), ...node.entries.flatMap(({ value }) => overlaysIn(value))];
}

function once(all: readonly Occurrence[]): Occurrence[] {
  const byUnit = new Map<object, Map<number, Occurrence[]>>();
  for (const occurrence of all) {
    const { unit, start } = occurrence.place.span;
    const byStart = byUnit.get(unit) ?? new Map<number, Occurrence[]>();
    byUnit.set(unit, byStart);
    const here = byStart.get(start) ?? [];
    byStart.set(start, here);
    const same = here.findIndex(({ thing }) => isSame(thing, occurrence.thing));
    if (same < 0) here.push(occurrence);
    // A declaration is often found as a mention of itself, too.
    else if (!here[same].declares) here[same] = occurrence;
  }
  return [...byUnit.values()].flatMap(byStart => [...byStart.values()].flat());
}
