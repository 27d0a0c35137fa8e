import type { FileView } from '../analysis/view.ts';
import { closest } from '../base/closest.ts';
import type { Finding } from '../base/finding.ts';
import type { Place, Ref } from '../base/place.ts';
import type { Allowance, Declared } from '../model/common.ts';
import { ruleById } from './index.ts';
import type { Levels } from './rule.ts';
import { name } from './wording.ts';

/**
 * Takes out what the file itself allows, and adds what is wrong with the allowances. Whether one is still needed is only said
 * while everything could be read and the rule is at work (`isJudged`).
 */
export function silence(
  all: readonly Finding[],
  view: FileView,
  isJudged: (rule: string) => boolean,
  levels: Levels,
): readonly Finding[] {
  const allowances = allowancesOf(view);
  if (allowances.length === 0) return all;
  const uses = allowances.flatMap(allowance => usesOf(allowance, view));
  const kept = all.filter(finding => {
    const use = uses.find(
      u => u.rule === finding.rule && (!u.within || u.within.some(thing => holds(thing, finding.place))),
    );
    if (use) use.used = true;
    return !use;
  });
  const strange = allowances.filter(({ rule }) => !ruleById.has(rule.text)).map(({ rule }) => unknownRule(rule));
  const canRun = couldRun(view);
  const unused = uses.filter(
    u =>
      !u.used &&
      canRun &&
      isJudged(u.rule) &&
      ruleById.has(u.rule) &&
      levels.get(u.rule) !== 'off' &&
      u.within?.length !== 0,
  );
  return [...kept, ...strange, ...unused.map(unusedAllowance)];
}

interface Use {
  readonly rule: string;
  /** The name of the rule, or the name under `in`. */
  readonly ref: Ref;
  /** Empty where the name under `in` is not known. */
  readonly within?: readonly Declared[];
  used: boolean;
}

function allowancesOf(view: FileView): readonly Allowance[] {
  if (view.kind === 'procedure') return view.procedure.allow;
  return view.kind === 'system' ? view.system.allow.filter(a => a.rule.place.uri === view.uri) : [];
}

function usesOf({ rule, within }: Allowance, view: FileView): Use[] {
  if (!within) return [{ rule: rule.text, ref: rule, used: false }];
  return within.map(ref => ({ rule: rule.text, ref, within: declaredAs(ref.text, view), used: false }));
}

/** Everything of that name in the file, whose findings the allowance then covers. */
export function declaredAs(text: string, view: FileView): readonly Declared[] {
  return declaredIn(view).flatMap(thing => (thing.id === text ? [thing] : []));
}

export function declaredIn(view: FileView): readonly Declared[] {
  if (view.kind === 'procedure') return [...view.procedure.steps.values(), ...view.procedure.endings.values()];
  if (view.kind !== 'system') return [];
  const { variantDecls, conditions, parts, connectors, grounds, splices, wires, specifications, faultNotes } =
    view.system;
  const maps = [variantDecls, conditions, parts, connectors, grounds, splices, specifications];
  return [...maps.flatMap((m: ReadonlyMap<string, Declared>) => [...m.values()]), ...wires, ...faultNotes].filter(
    thing => thing.place.uri === view.uri,
  );
}

function holds({ entry }: Declared, { span }: Place): boolean {
  return entry.span.unit === span.unit && span.start >= entry.span.start && span.end <= entry.span.end;
}

/** Rules about the circuit find nothing while there is no system, and what is unused is not known without a procedure. */
function couldRun(view: FileView): boolean {
  if (view.kind === 'procedure') return view.cases.length > 0;
  return view.kind !== 'system' || view.usedBy.length > 0;
}

function unusedAllowance({ rule, ref, within }: Use): Finding {
  return {
    rule: 'unused-allowance',
    place: ref.place,
    message: within ? `There is no ${name(rule)} in ${name(ref.text)} to allow` : `There is no ${name(rule)} to allow`,
    detail: 'What it was written for has been corrected; left here, it would hide the next one.',
    help: within ? 'Delete this name, or the whole allowance.' : 'Delete it.',
  };
}

function unknownRule(rule: Ref): Finding {
  const meant = closest(rule.text, ruleById.keys());
  return {
    rule: 'unknown-name',
    place: rule.place,
    message: `There is no rule ${name(rule.text)}`,
    detail: 'An allowance names the rule by the id that stands behind each finding.',
    help: meant ? `Write ${name(meant)}.` : 'Write the id of the rule.',
    fixes: meant ? [{ title: `Write \`${meant}\``, edits: [{ place: rule.place, text: meant }] }] : [],
  };
}
