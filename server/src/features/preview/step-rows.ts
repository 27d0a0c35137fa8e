import type { Situation } from '../../analysis/situation.ts';
import { holds } from '../../analysis/test.ts';
import { formatQuantity } from '../../base/quantity/format.ts';
import type { Ref, Test } from '../../model/common.ts';
import type { Action, Lead, Setting, StepData } from '../../model/step.ts';
import type { System } from '../../model/system.ts';
import type { Row, RowEntry } from '../../protocol/preview.ts';
import { noteOn, pointTitle } from './titles.ts';

/** Where a step is done: on which system, and in which situation somebody comes to it. Both may not be known. */
export interface Scene {
  readonly system?: System;
  readonly before?: Situation;
}

/** What is to be done at a step, in the order in which it is done: first the machine, then the meter. */
export function stepRows(data: StepData, scene: Scene): Row[] {
  return [
    row('Must hold', needs(data.needs, scene)),
    row('Tools', prose(data.tools.map(({ text }) => text).join(', '))),
    ...instructionRows(data, scene),
    ...actionRows(data.action, scene),
    ...data.provoke.map(({ how, what }) => row(`Meanwhile ${how.text}`, things(what, scene))),
  ].filter(({ entries }) => entries.length > 0);
}

/** `set`, `connect`, `refit`, `disconnect`, `remove` of a step or an ending. */
export function instructionRows(
  data: Pick<StepData, 'set' | 'connect' | 'refit'> & Partial<Pick<StepData, 'disconnect' | 'remove'>>,
  scene: Scene,
): Row[] {
  const isApart = (name: string) => scene.before?.apart.has(name);
  const moved = (refs: readonly Ref[], apart: boolean): RowEntry[] =>
    refs.map(({ text }) => ({ text, note: noteOn(scene.system, text), ...done(isApart(text) === apart) }));
  return [
    row(
      'Set',
      data.set.map(setting => settingEntry(setting, scene)),
    ),
    row('Connect', moved(data.connect, false)),
    row('Refit', moved(data.refit, false)),
    row('Disconnect', moved(data.disconnect ?? [], true)),
    row('Remove', moved(data.remove ?? [], true)),
  ];
}

export function row(label: string, entries: RowEntry[]): Row {
  return { label, entries };
}

export function things(refs: readonly Ref[], { system }: Scene): RowEntry[] {
  return refs.map(({ text }) => ({ text, note: pointTitle(system, text) }));
}

/** A sentence or a word as one entry; none where there is nothing to say. */
export function prose(text: string | undefined): RowEntry[] {
  return text ? [{ text, isProse: true }] : [];
}

function settingEntry({ name, state }: Setting, { system, before }: Scene): RowEntry {
  const text = `${name.text}: ${state.text}`;
  return { text, note: noteOn(system, name.text), ...done(before?.states.get(name.text) === state.text) };
}

function done(isSo: boolean): Pick<RowEntry, 'mark'> {
  return isSo ? { mark: 'done' } : {};
}

/** Each alternative of the test; where none holds on arrival, with what holds instead. */
function needs(test: Test | undefined, { system, before }: Scene): RowEntry[] {
  const stateOf = (name: string) => before?.states.get(name);
  const isUnmet = before && test && holds(test, name => [stateOf(name) ?? []].flat()) === false;
  return (test ?? []).map(parts => {
    const text = parts.map(({ name, states }) => `${name.text}: ${states.map(s => s.text).join(' or ')}`).join(', ');
    if (!isUnmet) return { text, note: parts.length === 1 ? noteOn(system, parts[0]!.name.text) : undefined };
    const actual = parts.map(({ name }) => `${name.text}: ${stateOf(name.text) ?? 'not known'}`);
    return { text, mark: 'wrong', note: `comes here with ${actual.join(', ')}` };
  });
}

function actionRows(action: Action, scene: Scene): Row[] {
  switch (action.verb) {
    case 'inspect':
      return [row('Inspect', things(action.items, scene))];
    case 'operate':
      return [row('Operate', prose(action.text))];
    case 'ask':
      return [row('Ask', prose(action.text))];
    case 'do':
      return [row('Do', prose(action.text))];
    case 'measure':
      return [
        row('Measure', prose(action.measure)),
        row('Red lead', lead(action.red, scene)),
        row('Black lead', lead(action.black, scene)),
        row('Clamp around', things(action.around ? [action.around] : [], scene)),
      ];
    case 'read':
      return [row('Read', readEntry(action, scene))];
    case 'record':
      return [
        row('Record', things(action.channels, scene)),
        row('For', action.seconds === undefined ? [] : [{ text: durationInWords(action.seconds) }]),
        row(
          'Event',
          action.events.map(({ channel, what }) => ({ text: `${channel.text} ${what.text}` })),
        ),
        row('Who moved first within', action.withinS === undefined ? [] : [{ text: durationInWords(action.withinS) }]),
      ];
    case 'none':
      return [];
  }
}

function readEntry({ module, datum }: Action & { verb: 'read' }, { system }: Scene): RowEntry[] {
  const text = [module?.text, datum?.text].filter(part => part !== undefined).join(' ');
  return text === '' ? [] : [{ text, note: module && noteOn(system, module.text) }];
}

function lead(at: Lead | undefined, { system }: Scene): RowEntry[] {
  if (!at) return [];
  const how = at.backProbe ? 'from behind the plug' : at.side ? `${at.side.text} side` : undefined;
  const title = pointTitle(system, at.point.text);
  return [{ text: at.point.text, note: [how, title].filter(part => part !== undefined).join(', ') || undefined }];
}

/** Minutes as they are planned, everything shorter as it is measured. */
function durationInWords(seconds: number): string {
  return seconds >= 60 && seconds % 60 === 0 ? `${seconds / 60} min` : formatQuantity(seconds, 'time');
}
