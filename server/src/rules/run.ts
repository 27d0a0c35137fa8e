import type { FileView, ProcedureView } from '../analysis/view.ts';
import type { Finding, Severity } from '../base/finding.ts';
import type { Span, Unit } from '../base/span.ts';
import type { Proof } from '../proof/prove.ts';
import { checkFile as checkShape } from '../schema/check.ts';
import type { SyntaxTree } from '../syntax/tree.ts';
import { silence } from './allow.ts';
import { ruleById, rules } from './index.ts';
import { proofRules } from './proof/index.ts';
import { proofOf } from './proof/proved.ts';
import type { Levels, Rule } from './rule.ts';
import { dataOf } from './step-data.ts';

export interface FoundFinding extends Finding {
  readonly severity: Severity;
}

/**
 * Everything that is wrong in one file, in the order of the text. One mistake gives one finding: what the text or the shape of an
 * entry is told about is not told again by the rules that stumble over it.
 */
export function checkFile(view: FileView, levels: Levels = new Map()): readonly FoundFinding[] {
  return check(view, levels, 'all');
}

/** All of `checkFile` but what follows from walking every fault through the procedure, which takes longer than a reader who types waits. */
export function checkWithoutProof(view: FileView, levels: Levels = new Map()): readonly FoundFinding[] {
  return check(view, levels, 'without proof');
}

/** What follows from walking every fault, with the walks; undefined where the question was taken back. */
export function checkProof(
  view: ProcedureView,
  levels: Levels,
  cancelled: () => boolean,
): { readonly findings: readonly FoundFinding[]; readonly proof: Proof } | undefined {
  const proof = proofOf(view, cancelled);
  if (proof.isCancelled) return undefined;
  const findings = checkFile(view, levels).filter(isOfProof);
  return { findings, proof };
}

/** Found by walking faults, or about an allowance of that. */
function isOfProof({ rule, message }: Finding): boolean {
  if (ruleById.get(rule)?.group === 'proof') return true;
  return rule === 'unused-allowance' && proofRules.some(({ id }) => message.includes(`\`${id}\``));
}

/** What a file tells by itself, before any other file is read: some of what `checkFile` finds, and nothing else. */
export function checkAlone(view: FileView, levels: Levels = new Map()): readonly FoundFinding[] {
  return check(view, levels, 'alone');
}

type Extent = 'alone' | 'without proof' | 'all';

const quickRules = rules.filter(({ group }) => group !== 'proof');
/** Groups whose rules need no other file than their own, though they may find more with one. */
const ofOneFile: ReadonlySet<string> = new Set(['text', 'names', 'structure', 'limits']);
// A file that is named may only not have been read yet.
const aloneRules = rules.filter(({ id, group }) => ofOneFile.has(group) && id !== 'missing-file');

function check(view: FileView, levels: Levels, extent: Extent): readonly FoundFinding[] {
  if (view.kind === 'other') return [];
  const { tree } = view;
  const text = tree.problems.map(problem => fromStage(view.uri, problem));
  if (!tree.readable) return inOrder(text, tree, levels);
  const shape = checkShape(view.kind, tree).map(problem => fromStage(view.uri, problem));
  const reading = readProblems(view).filter(problem => problem.place.uri === view.uri);
  const ruled = (extent === 'alone' ? aloneRules : quickRules).flatMap(rule => found(rule, view));
  const { kept, better } = merge(shape, ruled, tree);
  const stages = [...text, ...kept, ...reading];
  const quick = [...stages, ...withoutEchoes(better, stages, view)];
  const isProved = extent === 'all' && !quick.some(isError);
  const all = distinct(isProved ? [...quick, ...proofRules.flatMap(rule => found(rule, view))] : quick);
  const isJudged = (rule: string) =>
    extent !== 'alone' && stages.length === 0 && (isProved || ruleById.get(rule)?.group !== 'proof');
  return inOrder(silence(all, view, isJudged, levels), tree, levels);
}

/** Where something is surely wrong, what follows from the whole is mostly an echo of that. */
function isError({ rule }: Finding): boolean {
  return ruleById.get(rule)?.severity === 'error';
}

/** What a rule finds in this file; what it finds elsewhere is told when that file is checked. */
function found(rule: Rule, view: FileView): readonly Finding[] {
  if (rule.needsWholeFile && view.tree.problems.length > 0) return [];
  return [...findings(rule, view)].filter(finding => finding.place.uri === view.uri);
}

function findings(rule: Rule, view: FileView): Iterable<Finding> {
  if (rule.on === 'any') return rule.check(view);
  if (rule.on === 'procedure' && view.kind === 'procedure') return rule.check(view);
  if (rule.on === 'system' && view.kind === 'system') return rule.check(view);
  if (rule.on === 'samples' && view.kind === 'samples') return rule.check(view);
  return [];
}

function readProblems(view: FileView): readonly Finding[] {
  if (view.kind === 'system') return view.system.problems;
  if (view.kind === 'procedure') return view.procedure.problems;
  return view.kind === 'samples' ? view.samples.problems : [];
}

interface StageProblem extends Pick<Finding, 'message' | 'detail' | 'help'> {
  readonly id: string;
  readonly span: Finding['place']['span'];
  readonly related?: readonly { readonly span: Finding['place']['span']; readonly message: string }[];
  readonly fixes?: readonly {
    readonly title: string;
    readonly span: Finding['place']['span'];
    readonly text: string;
    readonly preferred?: boolean;
  }[];
}

function fromStage(uri: string, { id, span, message, detail, help, related, fixes }: StageProblem): Finding {
  return {
    rule: id,
    place: { uri, span },
    message,
    detail,
    help: help && sentence(help),
    related: related?.map(r => ({ place: { uri, span: r.span }, message: r.message })),
    fixes: fixes?.map(({ title, span, text, preferred }) => ({
      title,
      edits: [{ place: { uri, span }, text }],
      preferred,
    })),
  };
}

function sentence(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1) + (/[.!?]$/.test(text) ? '' : '.');
}

/** Where a rule says at the same token why the thing is needed that the shape only says is missing, the rule is heard. */
function merge(shape: readonly Finding[], ruled: readonly Finding[], tree: SyntaxTree) {
  const places = new Map<string, Finding[]>();
  for (const finding of ruled) {
    const key = placeKey(finding, tree);
    places.set(key, [...(places.get(key) ?? []), finding]);
  }
  const better = new Map<Finding, Finding>();
  const kept = shape.filter(problem => {
    const rival = places.get(placeKey(problem, tree))?.find(finding => isSame(problem, finding));
    if (rival) better.set(rival, rival.fixes?.length ? rival : { ...rival, fixes: problem.fixes });
    return !rival;
  });
  return { kept, better: ruled.map(finding => better.get(finding) ?? finding) };
}

function isSame(shape: Finding, finding: Finding): boolean {
  if (finding.rule === 'missing-branches')
    return shape.rule !== 'missing-key' || /`then`|no entry yet$/.test(shape.message);
  if (finding.rule === 'dead-branch') return shape.rule === 'empty-value';
  return finding.rule === 'ending-names-nothing' && shape.rule !== 'missing-key';
}

function placeKey({ place }: Finding, tree: SyntaxTree): string {
  const { start, end } = tree.absolute(place.span);
  return `${start} ${end}`;
}

/**
 * In an entry that could not be read as written, what the rules about its content find is mostly an echo of that. Names are
 * checked all the same: a wrong one is a mistake of its own, and then what the circuit says there is the echo.
 */
function withoutEchoes(ruled: readonly Finding[], stages: readonly Finding[], view: FileView): readonly Finding[] {
  const unread = new Set<Unit>(stages.map(problem => problem.place.span.unit));
  const unknown = ruled.filter(f => f.rule === 'unknown-name' || isMisread(f));
  const targets = unknown.length > 0 ? targetsIn(view) : new Set();
  const misnamed = new Set<Unit>(unknown.filter(f => !targets.has(f.place.span)).map(f => f.place.span.unit));
  const noise = unsureTables(view, ruled, unread.size + misnamed.size > 0);
  if (unread.size + misnamed.size + noise.size === 0) return ruled;
  return ruled.filter(finding => {
    if (noise.has(finding.rule)) return false;
    const group = ruleById.get(finding.rule)?.group ?? 'names';
    const { span } = finding.place;
    if (group === 'names' || isMisread(finding)) return true;
    return !unread.has(span.unit) && !(misnamed.has(span.unit) && aboutMachine.has(group));
  });
}

/** While a system is not all read, or wires in it are wrong, what its circuit says against its own tables may be an echo of that. */
function unsureTables(view: FileView, ruled: readonly Finding[], isUnread: boolean): ReadonlySet<string> {
  if (view.kind !== 'system') return new Set();
  const meant = new Set(view.system.allow.map(({ rule }) => rule.text));
  const isMiswired = ruled.some(({ rule }) => aboutWiring.has(rule) && !meant.has(rule));
  return isUnread || isMiswired ? againstTables : new Set();
}

const aboutWiring = new Set(['terminal-without-wire', 'wire-to-itself', 'bridged-part', 'cavity-taken-twice']);

const againstTables = new Set(['limits-contradict-circuit', 'good-system-can-fail', 'limits-not-derived']);

/** A value that cannot be what the name beside it is: a rule found it, and it is told as what a stage would have told. */
function isMisread({ rule }: Finding): boolean {
  return ruleById.get(rule)?.on === 'stage';
}

/** Where branches lead has no part in what the machine does. */
function targetsIn(view: FileView): ReadonlySet<Span> {
  if (view.kind !== 'procedure') return new Set();
  const branches = [...view.procedure.steps.values()].flatMap(step => dataOf(step).flatMap(data => data.branches));
  return new Set(branches.flatMap(({ target }) => target?.place.span ?? []));
}

/** Groups whose rules need the machine as it is, so that a name that is not known leaves them nothing to say. */
const aboutMachine: ReadonlySet<string> = new Set(['circuit', 'conditions', 'safety']);

/** A rule may come to the same place by several variants; the first one is told. */
function distinct(all: readonly Finding[]): readonly Finding[] {
  const seen = new Map<Unit, Set<string>>();
  return all.filter(({ rule, place: { span } }) => {
    const known = seen.get(span.unit) ?? new Set();
    seen.set(span.unit, known);
    const key = `${span.start} ${span.end} ${rule}`;
    return !known.has(key) && known.add(key);
  });
}

function inOrder(all: readonly Finding[], tree: SyntaxTree, levels: Levels): readonly FoundFinding[] {
  return all
    .flatMap(finding => {
      const severity = levels.get(finding.rule) ?? ruleById.get(finding.rule)?.severity ?? 'error';
      return severity === 'off' ? [] : [{ finding: { ...finding, severity }, at: tree.absolute(finding.place.span) }];
    })
    .sort((a, b) => a.at.start - b.at.start || a.at.end - b.at.end || compare(a.finding.rule, b.finding.rule))
    .map(each => each.finding);
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

export type { Levels };
