import type { Case } from '../../analysis/view.ts';
import { existsIn, type Ref } from '../../model/common.ts';
import { partIn } from '../../model/parts.ts';
import type { EndingData } from '../../model/procedure.ts';
import type { Caution, StepData } from '../../model/step.ts';

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
  const refs = 'items' in data ? data.items : handledIn(data);
  const named = refs.map(ref => ({ name: ref.text, ref }));
  if ('items' in data || data.action.verb !== 'measure') return named;
  const { red, black, around } = data.action;
  const leads = [red, black].flatMap(lead => {
    const isHarness = lead?.side?.text === 'harness';
    return lead ? [{ name: ownerOfPoint(lead.point.text), ref: lead.point, isHarness }] : [];
  });
  return [...named, ...leads, ...(around ? [{ name: around.text, ref: around }] : [])];
}

/** `A1` of `A1.14`, `X12` of `X12/3`. */
export function ownerOfPoint(point: string): string {
  const cut = Math.max(point.lastIndexOf('.'), point.lastIndexOf('/'));
  return cut < 0 ? point : point.slice(0, cut);
}

/** What can harm where a technician touches it. */
export function hazardsAt({ name, isHarness }: Touched, one: Case): readonly string[] {
  const all = hazardsOf(name, one);
  return isHarness ? all.filter(h => h === 'high voltage') : all;
}

/** What can harm at a part or a connector in this variant. */
export function hazardsOf(name: string, { system, variant }: Case): readonly string[] {
  const part = system.parts.get(name);
  const thing = part ?? system.connectors.get(name);
  if (!thing || !existsIn(thing, variant)) return [];
  const hazards = part ? partIn(part, variant).hazards : (system.connectors.get(name)?.hazards ?? []);
  return hazards.map(h => h.text);
}

export function cautionsIn(all: readonly Caution[], variant: string): readonly Caution[] {
  return all.filter(caution => existsIn(caution, variant));
}

function handledIn({ action, disconnect, remove, provoke }: StepData): readonly Ref[] {
  const inspected = action.verb === 'inspect' ? action.items : [];
  return [...remove, ...disconnect, ...inspected, ...provoke.flatMap(p => p.what)];
}
