import type { ProcedureView } from '../../analysis/view.ts';
import type { Finding, Fix } from '../../base/finding.ts';
import type { Ref } from '../../base/place.ts';
import { existsIn, type Limited } from '../../model/common.ts';
import { type Ending, type EndingData, endingIn, type Procedure } from '../../model/procedure.ts';
import { overlaysOf } from '../../model/reader.ts';
import { type Action, type Branch, type Step, type StepData, stepIn } from '../../model/step.ts';
import { type Context, contextOf, inContext, type On } from '../each-step.ts';
import { addSibling } from '../fixes.ts';
import { dataOf } from '../step-data.ts';
import { name } from '../wording.ts';
import { Asker } from './ask.ts';
import { askSeen } from './ask-seen.ts';
import { type KnownNames, knownNames } from './known.ts';
import { unknownName } from './unknown.ts';

/** Names in a procedure that neither it nor its systems declare. */
export function* unknownInProcedure(view: ProcedureView): Generator<Finding> {
  const { procedure } = view;
  yield* unknownTargets(procedure);
  yield* unknownVariants(view);
  const context = contextOf(view);
  yield* inEntries(procedure, context);
  for (const step of procedure.steps.values()) yield* inStep(step, context);
  for (const ending of procedure.endings.values()) yield* inEnding(ending, context);
}

/** Steps and endings that are named and not there. */
function* unknownTargets(procedure: Procedure): Generator<Finding> {
  const { steps, endings } = procedure;
  const names = [...steps.keys(), ...endings.keys()];
  const isKnown = (ref: Ref | undefined) => ref === undefined || steps.has(ref.text) || endings.has(ref.text);
  // Where there are no steps at all, that is told once.
  const starts = steps.size > 0 ? [procedure.start, ...procedure.entries.map(e => e.start)] : [];
  for (const ref of starts) {
    if (ref && !steps.has(ref.text)) yield unknownStep(procedure, ref, 'A technician should start there.');
  }
  for (const step of steps.values()) {
    for (const { key, target, match } of dataOf(step).flatMap(d => d.branches)) {
      if (!target || isKnown(target)) continue;
      const sender = match.on === 'always' ? 'goes on to it' : `leads to it with ${name(key.text)}`;
      yield unknownName({
        ref: target,
        message: `No step or ending is called ${name(target.text)}`,
        detail: `${name(step.id)} ${sender}.`,
        among: names,
        otherwise: 'add a step or an ending of this name',
        fixes: [...createStep(step, target.text), ...createEnding(procedure, target.text)],
      });
    }
  }
  for (const ending of endings.values()) {
    for (const { confirm } of dataOf(ending)) {
      if (confirm && !steps.has(confirm.text)) {
        yield unknownStep(procedure, confirm, `It should confirm the repair ${name(ending.id)}.`);
      }
    }
  }
  for (const ref of procedure.allow.flatMap(a => a.within ?? [])) {
    if (isKnown(ref)) continue;
    const message = `No step or ending is called ${name(ref.text)}`;
    yield unknownName({ ref, message, among: names, otherwise: 'delete it from the allowance' });
  }
}

function unknownStep({ steps, endings }: Procedure, ref: Ref, detail: string): Finding {
  const last = [...steps.values()].at(-1);
  return unknownName({
    ref,
    message: endings.has(ref.text)
      ? `${name(ref.text)} is an ending, and a step is wanted`
      : `No step is called ${name(ref.text)}`,
    detail,
    among: [...steps.keys()],
    otherwise: 'add a step of this name',
    fixes: last && !endings.has(ref.text) ? createStep(last, ref.text) : [],
  });
}

function createStep(beside: Step, id: string): readonly Fix[] {
  const edit = addSibling(beside, (indent, br) =>
    [`${indent}${id}:`, `${indent}  title: ${id}`, `${indent}  inspect:`, `${indent}  then:`].join(br),
  );
  return edit ? [{ title: `Create the step \`${id}\``, edits: [edit] }] : [];
}

function createEnding({ endings }: Procedure, id: string): readonly Fix[] {
  const last = [...endings.values()].at(-1);
  const edit = last && addSibling(last, indent => `${indent}${id}: { mend: [] }`);
  return edit ? [{ title: `Create the ending \`${id}\``, edits: [edit] }] : [];
}

/** Variants of `applies to`, `only` and `by variant`. */
function* unknownVariants(view: ProcedureView): Generator<Finding> {
  const { procedure, systems } = view;
  const known = new Set<string>();
  for (const [i, application] of procedure.appliesTo.entries()) {
    const system = systemOf(view, i);
    if (!system) return;
    if (application.variants !== 'all') {
      const asker = new Asker(knownNames(system));
      asker.variants(application.variants, system.variants);
      yield* asker.findings;
    }
    for (const variant of system.variants) known.add(variant);
  }
  if (systems.size === 0 || known.size === 0) return;
  const first = systemOf(view, 0)!;
  const asker = new Asker(knownNames(first));
  for (const thing of [...procedure.steps.values(), ...procedure.endings.values()]) {
    asker.variants([...(thing.only ?? []), ...overlayNames(thing)], [...known]);
    for (const { only } of thing.data.cautions) asker.variants(only ?? [], [...known]);
  }
  for (const { only } of procedure.cautions) asker.variants(only ?? [], [...known]);
  yield* asker.findings;
}

function overlayNames({ entry, place }: Step | Ending): readonly Ref[] {
  return overlaysOf(entry.value).map(o => ({ text: o.key.text, place: { uri: place.uri, span: o.key.span } }));
}

/** The systems stand in the order of `applies to`; one that is missing leaves its place empty. */
function systemOf(view: ProcedureView, index: number) {
  return [...view.systems.values()][index]?.system;
}

/** What brings a technician here is asked for in every system. */
function* inEntries({ entries, leavesOut }: Procedure, { cases }: Context): Generator<Finding> {
  for (const system of new Set(cases.flatMap(({ system, isWhole }) => (isWhole ? [system] : [])))) {
    const asker = new Asker(knownNames(system));
    for (const { set, when, shows } of entries) {
      asker.settings(set);
      askSeen(asker, when);
      for (const ref of shows) asker.fault(ref);
    }
    for (const { name } of leavesOut) asker.fault(name);
    yield* asker.findings;
  }
}

/** What a step or an ending asks for, in each system that it is done on. */
const inStep = inContext((step: Step, { cases }) => asked(step, cases, stepIn, askStep));
const inEnding = inContext((ending: Ending, { cases }) => asked(ending, cases, endingIn, askEnding));

function asked<T extends Limited, D>(
  thing: T,
  cases: readonly On[],
  dataIn: (thing: T, variant: string) => D,
  ask: (asker: Asker, data: D) => void,
): readonly Finding[] {
  const done = new Map<D, Set<KnownNames>>();
  const findings: Finding[] = [];
  for (const { system, variant, isWhole } of cases) {
    if (!existsIn(thing, variant) || !isWhole) continue;
    const data = dataIn(thing, variant);
    const names = knownNames(system);
    const before = done.get(data) ?? new Set();
    if (before.has(names)) continue;
    done.set(data, before.add(names));
    const asker = new Asker(names);
    ask(asker, data);
    findings.push(...asker.findings);
  }
  return findings;
}

function askStep(asker: Asker, data: StepData): void {
  asker.test(data.needs);
  asker.settings(data.set);
  for (const ref of [...data.disconnect, ...data.connect, ...data.remove, ...data.refit]) asker.apart(ref);
  for (const { what } of data.provoke) for (const ref of what) asker.thing(ref);
  askAction(asker, data.action, data.branches);
  for (const { when, shows } of data.branches) {
    askSeen(asker, when);
    for (const ref of shows) asker.fault(ref);
  }
}

function askAction(asker: Asker, action: Action, branches: readonly Branch[]): void {
  switch (action.verb) {
    case 'inspect':
      for (const ref of action.items) asker.thing(ref);
      return;
    case 'measure':
      asker.meterPlace(action);
      asker.specification(action.specification);
      return;
    case 'read':
      askReading(asker, action, branches);
      return;
    case 'record':
      for (const ref of [...action.channels, ...action.events.map(e => e.channel)]) asker.channel(ref);
  }
}

function askReading(asker: Asker, action: Extract<Action, { verb: 'read' }>, branches: readonly Branch[]): void {
  const { module, datum, expect, limits } = action;
  const last = datum ?? module;
  if (!last) return;
  const text = module && datum ? `${module.text} ${datum.text}` : last.text;
  const start = (module ?? last).place;
  const states = asker.datum(text, { ...start, span: { ...start.span, end: last.place.span.end } });
  if (states && limits) asker.datumLimits(text, limits);
  if (!states || limits) return;
  const answers = branches.filter(b => b.match.on === 'answer').map(b => b.key);
  asker.oneOf([...(expect ?? []), ...answers], states, text);
}

function askEnding(asker: Asker, data: EndingData): void {
  for (const ref of data.items) asker.thing(ref);
  asker.settings(data.set);
  for (const ref of [...data.connect, ...data.refit]) asker.apart(ref);
}
