import { derivedAt, derivedInRow, type Limits, limitsOf, limitsOfRow } from '../analysis/limits.ts';
import type { Case, FileView, ProcedureView, SystemView } from '../analysis/view.ts';
import type { Edit, Fix } from '../base/finding.ts';
import type { Place } from '../base/place.ts';
import { type Declared, existsIn } from '../model/common.ts';
import type { Specified } from '../model/specified.ts';
import type { Step, StepData } from '../model/step.ts';
import { ways } from '../rules/circuit/judged.ts';
import { addKey, deriveLimits, withKey } from '../rules/fixes.ts';
import { rangeInWords } from '../walk/choose.ts';
import { locateEdit, type Project, type Replacement, type Stretch } from './project.ts';

/** A change that an author may want although nothing is wrong. */
export interface Refactoring {
  readonly title: string;
  readonly edits: readonly Replacement[];
}

/** Typed limits in the stretch can be left to the circuit where it gives any, and those left to it can be written out. */
export function limitChanges(project: Project, view: FileView, within: Stretch): Refactoring[] {
  return changesIn(view, (thing, limits) => {
    const { start, end } = view.tree.absolute(withKey(thing, limits.place).span);
    return start <= within.end && within.start <= end;
  }).map(({ title, edits }) => ({ title, edits: edits.flatMap(edit => locateEdit(project, edit) ?? []) }));
}

/** Whether these limits of a step or a row are in the stretch. */
type IsMeant = (thing: Declared, limits: Specified) => boolean;

function changesIn(view: FileView, isMeant: IsMeant): readonly Fix[] {
  if (view.kind === 'procedure') return inProcedure(view, isMeant);
  return view.kind === 'system' ? inTables(view, isMeant) : [];
}

function inProcedure({ procedure, cases }: ProcedureView, isMeant: IsMeant): readonly Fix[] {
  return [...procedure.steps.values()].flatMap(step =>
    [...written(step, cases)].flatMap(([limits, of]) => {
      if (!isMeant(step, limits)) return [];
      if (limits.marginRatio !== undefined) return writtenOut(step, of, limits.place);
      return of.every(({ data, one }) => isKnown(derivedAt(data, one, 0))) ? deriveLimits(limits.place) : [];
    }),
  );
}

/** What a step says in one variant. */
interface Said {
  readonly data: StepData;
  readonly one: Case;
}

/** The limits that stand in a step, with the variants for which they stand there: an overlay may change other keys alone. */
function written(step: Step, cases: readonly Case[]): ReadonlyMap<Specified, readonly Said[]> {
  const found: [Specified, Said[]][] = [];
  for (const [data, of] of ways(step, cases)) {
    const { action } = data;
    const limits = action.verb === 'measure' || action.verb === 'read' ? action.limits : undefined;
    if (!limits) continue;
    const said = of.map(one => ({ data, one }));
    const same = found.find(([other]) => other.place.span === limits.place.span);
    if (same) same[1].push(...said);
    else found.push([limits, said]);
  }
  return new Map(found);
}

function inTables(view: SystemView, isMeant: IsMeant): readonly Fix[] {
  const { system } = view;
  return [...system.specifications.values()].flatMap(table =>
    [...table.rows.values()].flatMap(row => {
      const { limits } = row;
      if (row.place.uri !== view.uri || !limits || !isMeant(row, limits)) return [];
      const circuits = system.variants
        .filter(variant => existsIn(table, variant) && existsIn(row, variant))
        .map(variant => view.circuit(variant));
      if (circuits.length === 0) return [];
      if (limits.marginRatio === undefined) {
        return circuits.every(c => isKnown(derivedInRow(table, row, c, 0))) ? deriveLimits(limits.place) : [];
      }
      const texts = new Set(circuits.map(circuit => textOf(limitsOfRow(table, row, circuit))));
      const [text] = texts;
      // A row has one limit for all variants.
      return texts.size === 1 && text !== undefined ? [writeOut([{ place: limits.place, text }])] : [];
    }),
  );
}

/** What the first variant gives stands for all; where another one gives something else, it is added for that variant. */
function writtenOut(step: Step, of: readonly Said[], place: Place): readonly Fix[] {
  const texts = new Map<string, string>();
  for (const { data, one } of of) {
    const text = textOf(limitsOf(data, one));
    // Two systems with a variant of one name cannot be told apart in the step.
    if (text === undefined || (texts.get(one.variant) ?? text) !== text) return [];
    texts.set(one.variant, text);
  }
  const [first] = texts.values();
  if (first === undefined) return [];
  const others = [...texts].filter(([, text]) => text !== first);
  if (others.length === 0) return [writeOut([{ place, text: first }])];
  if (step.byVariant.size > 0) return [];
  const entries = others.map(([variant, text]) => `${asKey(variant)}: { limits: ${text} }`);
  const [added] = addKey(step, 'by variant', `{ ${entries.join(', ')} }`);
  return added ? [writeOut([{ place, text: first }, ...added.edits])] : [];
}

function writeOut(edits: readonly Edit[]): Fix {
  return { title: 'Write the derived limits out', edits };
}

function textOf(limits: Limits): string | undefined {
  return limits.state === 'known' ? rangeInWords(limits.limit) : undefined;
}

function isKnown({ state }: Limits): boolean {
  return state === 'known';
}

/** A name that YAML could take for something else stands in quotes. */
function asKey(name: string): string {
  return /^[\p{L}\d_](?:[\p{L}\d_ -]*[\p{L}\d_])?$/u.test(name) ? name : JSON.stringify(name);
}
