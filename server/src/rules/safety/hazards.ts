import type { Case } from '../../analysis/view.ts';
import { existsIn, type Ref } from '../../model/common.ts';
import { type Part, partIn } from '../../model/parts.ts';
import { type EndingData, isRepair } from '../../model/procedure.ts';
import type { Caution, StepData } from '../../model/step.ts';
import type { Connector, System } from '../../model/system.ts';

/** Something that a technician touches or comes near to, with where the text says so. */
export interface Touched {
  /** The part or connector. */
  readonly name: string;
  readonly ref: Ref;
  /** Only the harness half of its plug, which is off: there is nothing of the part but its voltage. */
  readonly isHarness?: boolean;
}

/** Parts and connectors that a step looks at, measures at, takes apart or provokes, or that a repair works on. */
export function touchedIn(data: StepData | EndingData): readonly Touched[] {
  if ('items' in data) return isRepair(data.kind) ? data.items.map(touched) : [];
  const named = handledIn(data).map(touched);
  if (data.action.verb !== 'measure') return named;
  const { red, black, around } = data.action;
  const leads = [red, black].flatMap(lead => {
    const isHarness = lead?.side?.text === 'harness';
    return lead ? [{ name: ownerOfPoint(lead.point.text), ref: lead.point, isHarness }] : [];
  });
  return [...named, ...leads, ...(around ? [{ name: around.text, ref: around }] : [])];
}

function touched(ref: Ref): Touched {
  return { name: ref.text, ref };
}

/** `A1` of `A1.14`, `X12` of `X12/3`. */
export function ownerOfPoint(point: string): string {
  const cut = Math.max(point.lastIndexOf('.'), point.lastIndexOf('/'));
  return cut < 0 ? point : point.slice(0, cut);
}

/** Part or connector to what can harm there. */
export type Hazards = ReadonlyMap<string, readonly string[]>;

/** What can harm where a technician touches it. */
export function hazardsAt({ name, isHarness }: Touched, marked: Hazards): readonly string[] {
  const all = marked.get(name) ?? [];
  return isHarness ? all.filter(h => h === 'high voltage') : all;
}

/** Parts and connectors that are marked in this variant, with what can harm there. */
export function hazardsIn({ system, variant }: Pick<Case, 'system' | 'variant'>): Hazards {
  const variants = perSystem.get(system) ?? new Map<string, Hazards>();
  perSystem.set(system, variants);
  const before = variants.get(variant);
  if (before) return before;
  const found = new Map<string, readonly string[]>();
  for (const part of system.parts.values()) add(found, part, partIn(part, variant).hazards, variant);
  for (const connector of system.connectors.values()) add(found, connector, connector.hazards, variant);
  variants.set(variant, found);
  return found;
}

const perSystem = new WeakMap<System, Map<string, Hazards>>();

function add(found: Map<string, readonly string[]>, thing: Part | Connector, hazards: readonly Ref[], variant: string) {
  if (hazards.length > 0 && existsIn(thing, variant)) {
    found.set(
      thing.id,
      hazards.map(h => h.text),
    );
  }
}

export function cautionsIn(all: readonly Caution[], variant: string): readonly Caution[] {
  return all.filter(caution => existsIn(caution, variant));
}

function handledIn({ action, disconnect, remove, provoke }: StepData): readonly Ref[] {
  const inspected = action.verb === 'inspect' ? action.items : [];
  return [...remove, ...disconnect, ...inspected, ...provoke.flatMap(p => p.what)];
}
