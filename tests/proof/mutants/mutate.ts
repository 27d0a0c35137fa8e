import type { ProcedureView } from '../../../server/src/analysis/view.ts';
import type { Place } from '../../../server/src/base/place.ts';
import { formatLimit, type Limit } from '../../../server/src/base/quantity/limit.ts';
import type { Branch } from '../../../server/src/model/step.ts';
import { applied } from '../../support/check.ts';

/** A procedure with one mistake that somebody may make. */
export interface Mutant {
  readonly kind: 'branches swapped' | 'limit moved' | 'repair renamed' | 'step dropped';
  readonly what: string;
  readonly text: string;
}

interface Edit {
  readonly place: Place;
  readonly text: string;
}

/** Every one of them, in the order of the text. What differs by variant is left as it is. */
export function mutantsOf(view: ProcedureView): readonly Mutant[] {
  const make = (kind: Mutant['kind'], what: string, edits: readonly Edit[]): Mutant => ({
    kind,
    what,
    text: applied(view, edits),
  });
  return [
    ...swaps(view).map(([what, edits]) => make('branches swapped', what, edits)),
    ...moves(view).map(([what, edits]) => make('limit moved', what, edits)),
    ...renames(view).map(([what, edits]) => make('repair renamed', what, edits)),
    ...drops(view),
  ];
}

type Told = readonly [what: string, edits: readonly Edit[]];

function swaps({ procedure }: ProcedureView): readonly Told[] {
  return [...procedure.steps.values()].flatMap(({ id, data: { branches } }) =>
    branches.flatMap((one, i) =>
      branches.slice(i + 1).flatMap((other): Told[] => {
        const [a, b] = [one.target, other.target];
        if (!a || !b || a.text === b.text) return [];
        const edits = [
          { place: a.place, text: b.text },
          { place: b.place, text: a.text },
        ];
        return [[`${id}: ${one.key.text} and ${other.key.text}`, edits]];
      }),
    ),
  );
}

/** By three tenths of itself, either way. */
function moves({ procedure }: ProcedureView): readonly Told[] {
  return [...procedure.steps.values()].flatMap(({ id, data: { action, branches } }) => {
    const own = 'limits' in action && action.limits?.limit ? [action.limits as { limit: Limit; place: Place }] : [];
    const keys = branches.flatMap(({ match, key }: Branch) =>
      match.on === 'limit' && Number.isFinite(match.limit.low + match.limit.high - match.limit.low - match.limit.high)
        ? [{ limit: match.limit, place: key.place }]
        : [],
    );
    return [...own, ...keys].flatMap(({ limit, place }) =>
      [0.7, 1.3].flatMap((factor): Told[] => {
        const moved = formatLimit({ ...limit, low: limit.low * factor, high: limit.high * factor });
        return moved === formatLimit(limit)
          ? []
          : [[`${id}: ${formatLimit(limit)} to ${moved}`, [{ place, text: moved }]]];
      }),
    );
  });
}

/** To what another repair names, else to a part of the system. */
function renames({ procedure, cases }: ProcedureView): readonly Told[] {
  const repairs = [...procedure.endings.values()].filter(({ data }) => data.items.length > 0);
  const parts = [...(cases[0]?.system.parts.keys() ?? [])];
  const all = [...repairs.flatMap(({ data }) => data.items.map(({ text }) => text)), ...parts];
  return repairs.flatMap(({ id, data: { items } }) =>
    items.flatMap(({ text, place }): Told[] => {
      const other = all.find(name => !items.some(item => item.text === name));
      return other === undefined ? [] : [[`${id}: ${text} to ${other}`, [{ place, text: other }]]];
    }),
  );
}

/** Whoever led there is led on to where its first branch leads. */
function drops(view: ProcedureView): readonly Mutant[] {
  const { procedure, tree } = view;
  return [...procedure.steps.values()].flatMap(({ id, data, entry }): Mutant[] => {
    const onward = data.branches[0]?.target?.text;
    if (onward === undefined || onward === id) return [];
    const leading = [
      procedure.start,
      ...procedure.entries.map(({ start }) => start),
      ...[...procedure.steps.values()].flatMap(step => step.data.branches.map(({ target }) => target)),
      ...[...procedure.endings.values()].map(ending => ending.data.confirm),
    ].flatMap(ref => (ref?.text === id ? [{ ...tree.absolute(ref.place.span), text: onward }] : []));
    const own = tree.absolute(entry.span);
    const from = tree.text.lastIndexOf('\n', own.start) + 1;
    const to = tree.text.indexOf('\n', own.end) + 1 || tree.text.length;
    const outside = leading.filter(({ start }) => start < from || start >= to);
    const text = [...outside, { start: from, end: to, text: '' }]
      .sort((a, b) => b.start - a.start)
      .reduce((now, edit) => now.slice(0, edit.start) + edit.text + now.slice(edit.end), tree.text);
    return [{ kind: 'step dropped', what: `${id}, on to ${onward}`, text }];
  });
}
