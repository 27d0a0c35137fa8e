import type { ProcedureView } from '../../analysis/view.ts';
import type { Test, Value } from '../../model/common.ts';
import { ownTests } from '../../model/part-tests.ts';
import type { EndingData, Procedure, Start } from '../../model/procedure.ts';
import type { MeterPlace, StepData } from '../../model/step.ts';
import type { System } from '../../model/system.ts';
import { dataOf } from '../step-data.ts';
import { variantsOf } from './known.ts';

/** Everything that is named somewhere in a system or in a procedure that applies to it, as written. */
export interface Used {
  /** Points where a wire ends or passes, a lead goes, a part is looked at. */
  readonly names: ReadonlySet<string>;
  readonly conditions: ReadonlySet<string>;
  /** Tables and rows: `keypad-ohms`, `keypad-ohms/on`. */
  readonly specifications: ReadonlySet<string>;
}

/** What wires, tests, tables and procedures name. */
export function usedNames(system: System, usedBy: readonly ProcedureView[]): Used {
  const names = new Set<string>();
  const conditions = new Set<string>();
  const specifications = new Set<string>();
  const test = (t: Test | undefined) => {
    for (const part of (t ?? []).flat()) conditions.add(part.name.text);
  };
  inWires(system, names);
  inParts(system, test, conditions);
  for (const { needs } of system.conditions.values()) for (const t of needs.values()) test(t);
  for (const note of system.faultNotes) addFault(note.id, names);
  for (const { procedure } of usedBy) {
    for (const found of usesOf(procedure)) {
      for (const text of found.names) names.add(text);
      for (const text of found.conditions) conditions.add(text);
      for (const text of found.specifications) specifications.add(text);
    }
  }
  return { names: withOwners(names), conditions, specifications };
}

function inWires(system: System, names: Set<string>): void {
  for (const { from, to, through, beside } of system.wires) {
    for (const ref of [from, to, ...through, ...beside]) if (ref) names.add(ref.text);
  }
}

function inParts(system: System, test: (t: Test | undefined) => void, conditions: Set<string>): void {
  const value = (v: Value | undefined) => {
    for (const c of v?.cases ?? []) test(c.when);
  };
  for (const data of [...system.parts.values()].flatMap(variantsOf)) {
    if ('volts' in data) value(data.volts);
    if ('ohms' in data && data.ohms && 'cases' in data.ohms) value(data.ohms);
    for (const own of ownTests(data)) test(own);
    if ('follows' in data && data.follows) conditions.add(data.follows.text);
    if (data.kind === 'switch') for (const { closed } of data.contacts) if ('test' in closed) test(closed.test);
    if (data.kind !== 'module') continue;
    for (const { follows } of data.scanData.values()) if (follows) conditions.add(follows.text);
    for (const { when, until } of data.rules) {
      test(when);
      test(until);
    }
  }
}

interface Uses {
  readonly names: Set<string>;
  readonly conditions: Set<string>;
  readonly specifications: Set<string>;
}

/** What each entry, step and ending names; kept while the step is unchanged. */
function usesOf(procedure: Procedure): readonly Uses[] {
  return [
    ...procedure.entries.map(entry => remembered(entry, inEntry)),
    remembered(procedure.leavesOut, inLeftOut),
    ...[...procedure.steps.values()].flatMap(step => dataOf(step).map(data => remembered(data, inStep))),
    ...[...procedure.endings.values()].flatMap(ending => dataOf(ending).map(data => remembered(data, inEnding))),
  ];
}

const memory = new WeakMap<object, Uses>();

function remembered<D extends object>(data: D, gather: (data: D, uses: Uses) => void): Uses {
  const before = memory.get(data);
  if (before) return before;
  const uses = { names: new Set<string>(), conditions: new Set<string>(), specifications: new Set<string>() };
  gather(data, uses);
  memory.set(data, uses);
  return uses;
}

function inLeftOut(leavesOut: Procedure['leavesOut'], { names }: Uses): void {
  for (const { name } of leavesOut) addFault(name.text, names);
}

function inEntry({ set, when, shows }: Start, uses: Uses): void {
  for (const { name } of set) uses.conditions.add(name.text);
  for (const ref of shows) addFault(ref.text, uses.names);
  inSeen(when, uses);
}

/** A condition, or a part, output or scan datum. */
function inSeen(test: Test | undefined, { names, conditions }: Uses): void {
  for (const { name } of (test ?? []).flat()) {
    conditions.add(name.text);
    addFault(name.text, names);
  }
}

function inStep(data: StepData, uses: Uses): void {
  const { names, conditions, specifications } = uses;
  const { action, needs, set } = data;
  for (const { name } of [...set, ...(needs ?? []).flat()]) conditions.add(name.text);
  for (const ref of [...data.disconnect, ...data.connect, ...data.remove, ...data.refit]) names.add(ref.text);
  for (const { what } of data.provoke) for (const ref of what) names.add(ref.text);
  for (const { when, shows } of data.branches) {
    inSeen(when, uses);
    for (const ref of shows) addFault(ref.text, names);
  }
  if (action.verb === 'inspect') for (const ref of action.items) names.add(ref.text);
  if (action.verb === 'read' && action.module) {
    names.add(action.module.text);
    if (action.datum) names.add(`${action.module.text} ${action.datum.text}`);
  }
  if (action.verb === 'record') {
    for (const ref of [...action.channels, ...action.events.map(e => e.channel)]) addFault(ref.text, names);
  }
  if (action.verb !== 'measure') return;
  addMeterPlace(action, names);
  const row = action.specification?.text;
  if (row !== undefined) specifications.add(row).add(row.slice(0, Math.max(0, row.lastIndexOf('/'))) || row);
}

function inEnding(data: EndingData, { names, conditions }: Uses): void {
  for (const ref of [...data.items, ...data.connect, ...data.refit]) names.add(ref.text);
  for (const { name } of data.set) conditions.add(name.text);
}

function addMeterPlace({ red, black, around }: MeterPlace, names: Set<string>): void {
  for (const ref of [red?.point, black?.point, around]) if (ref) names.add(ref.text);
}

/** `hose-P1 chafed` names hose-P1, and `A1 keypad` A1. */
function addFault(text: string, names: Set<string>): void {
  for (let end = text.length; end > 0; end = text.lastIndexOf(' ', end - 1)) names.add(text.slice(0, end));
}

/** `A1.14` names A1 as well, and `X12/3` X12. */
function withOwners(names: Set<string>): Set<string> {
  for (const text of [...names]) {
    for (let at = 0; at < text.length; at++) if ('./'.includes(text[at]!)) names.add(text.slice(0, at));
  }
  return names;
}
