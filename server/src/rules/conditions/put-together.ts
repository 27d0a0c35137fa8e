import type { ProcedureView } from '../../analysis/view.ts';
import type { Fix } from '../../base/finding.ts';
import type { Declared } from '../../model/common.ts';
import type { StepData } from '../../model/step.ts';
import { find } from '../../syntax/tree.ts';
import { addKey } from '../fixes.ts';
import { dataOf } from '../step-data.ts';

/** Steps that take a thing apart, in the order of the file. */
export function takenApartBy({ procedure }: ProcedureView, name: string): readonly string[] {
  const takes = ({ disconnect, remove }: StepData) => [...disconnect, ...remove].some(r => r.text === name);
  return [...procedure.steps.values()].filter(step => dataOf(step).some(takes)).map(step => step.id);
}

/** Connects what was disconnected, or else refits what was removed, in a step or an ending. */
export function putTogether(view: ProcedureView, thing: Declared, names: readonly string[]): readonly Fix[] {
  const steps = [...view.procedure.steps.values()].flatMap(step => dataOf(step));
  const isUnplugged = (name: string) => steps.some(({ disconnect }) => disconnect.some(r => r.text === name));
  const unplugged = names.filter(isUnplugged);
  return unplugged.length > 0 ? addNames(thing, 'connect', unplugged) : addNames(thing, 'refit', names);
}

/** A new key, or names behind those that stand there already. */
function addNames(thing: Declared, key: 'connect' | 'refit', names: readonly string[]): readonly Fix[] {
  const value = find(thing.entry.value, key)?.value;
  if (!value) return addKey(thing, key, `[${names.join(', ')}]`);
  const last = value.kind === 'list' ? value.items.at(-1) : value;
  // A list in lines of its own is rare here, and its indentation not worth guessing.
  const inBrackets = value.span.unit.text[value.span.start] === '[';
  if (!last || (value.kind !== 'scalar' && !inBrackets)) return [];
  const { unit, start, end } = last.span;
  const place = (from: number) => ({ uri: thing.place.uri, span: { unit, start: from, end } });
  const title = `Add ${names.join(', ')} to \`${key}\``;
  if (inBrackets) return [{ title, edits: [{ place: place(end), text: `, ${names.join(', ')}` }] }];
  const written = unit.text.slice(start, end);
  return [{ title, edits: [{ place: place(start), text: `[${written}, ${names.join(', ')}]` }] }];
}
