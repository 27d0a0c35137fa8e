import { limitAt } from '../../analysis/limits.ts';
import { displayed } from '../../analysis/meter-display.ts';
import type { ProcedureView } from '../../analysis/view.ts';
import type { Place } from '../../base/place.ts';
import type { Move } from '../../proof/explore.ts';
import type { ProvedWalk } from '../../proof/prove.ts';
import { isBad } from '../../proof/walk-fault.ts';
import type { Rule } from '../rule.ts';
import { name } from '../wording.ts';
import { asFinding, blamed } from './blame.ts';
import { coldHeater } from './example.ts';
import { walksIn } from './proved.ts';

export const limitCouldSeparate: Rule = {
  id: 'limit-could-separate',
  severity: 'information',
  group: 'proof',
  on: 'procedure',
  needsWholeFile: true,
  title: 'Limits that could tell a fault apart if they were moved',
  explanation: `
A machine with this fault passes these limits and ends badly further on. Its readings here lie apart from those of every good machine and of every
fault that takes the same branch and ends well, whatever the tolerances are: limits that end between the two would tell it apart at this step.

Move the limit to the value that the message gives, or to another one between the two ranges.`,
  bad: coldHeater(`
steps:
  look:
    title: Voltage across the heater
    set: { key: run }
    measure: voltage
    red: H1.1 (back-probe)
    black: H1.2 (back-probe)
    limits: at least 10 V
    then: { within: current, otherwise: around-it }
  current:
    title: Current of the heater
    needs: { key: run }
    measure: current
    around: W3
    limits: above 0.5 A
#           ^^^^^^^^^^^ information limit-could-separate: A limit of 0.9 A would tell \`H1.1 high resistance\` apart here
    then: { within: not-found, otherwise: the-heater }
#                   ^^^^^^^^^ warning fault-not-found: 2 faults end here as if nothing were wrong, first \`H1.1 high resistance\`
  confirm: { operate: Switch the heater on, then: { it gets warm: done, it stays cold: look } }
endings:
  around-it: { mend: [G1, W1, F1, W2, S1, W3, W5, X1, W4, GND-1, H1], confirm: confirm }
  the-heater: { mend: [H1, W3, W4], confirm: confirm }
  not-found: { no fault: The heater has its current }
  done: { repaired: The heater gets warm }
`),
  good: coldHeater(`
steps:
  look:
    title: Voltage across the heater
    set: { key: run }
    measure: voltage
    red: H1.1 (back-probe)
    black: H1.2 (back-probe)
    limits: at least 10 V
    then: { within: current, otherwise: around-it }
  current:
    title: Current of the heater
    needs: { key: run }
    measure: current
    around: W3
    limits: above 1 A
    then: { within: not-found, otherwise: the-heater }
  confirm: { operate: Switch the heater on, then: { it gets warm: done, it stays cold: look } }
endings:
  around-it: { mend: [G1, W1, F1, W2, S1, W3, W5, X1, W4, GND-1, H1], confirm: confirm }
  the-heater: { mend: [H1, W3, W4], confirm: confirm }
  not-found: { no fault: The heater has its current }
  done: { repaired: The heater gets warm }
`),
  *check(view) {
    const walks = walksIn(view);
    const bad = walks.flatMap(walk => {
      if (!walk.fault || !isBad(walk.worst.result) || walk.worst.isUndecided) return [];
      const found = separable(walk, walks, view);
      return found ? [{ walk, ...found }] : [];
    });
    for (const about of blamed(
      bad.map(({ walk }) => walk),
      walk => bad.find(one => one.walk === walk)?.place,
    )) {
      const { at, text, side } = bad.find(one => one.walk === about.walks[0])!;
      yield asFinding('limit-could-separate', view, about, {
        message: `A limit of ${text} would tell ${name(about.walks[0].fault!.id)} apart here`,
        detail: `At ${name(at)} its readings lie ${side} all others that take this branch.`,
        help: `Let the limits end at ${text}.`,
      });
    }
  },
};

/** The first step on the way at which a moved limit would part the fault from all that rightly takes the same branch. */
function separable(walk: ProvedWalk, all: readonly ProvedWalk[], view: ProcedureView) {
  for (const move of walk.worst.end.path) {
    const place = limitsPlace(move);
    if (!move.range || !place || move.outcome.branch?.match.on !== 'within') continue;
    const limit = limitAt(move.data, walk.of);
    if (!limit) continue;
    const others = all.flatMap(other => (isBad(other.worst.result) ? [] : rangesAt(other, move)));
    if (others.length === 0) continue;
    const [low, high] = [Math.min(...others.map(one => one.low)), Math.max(...others.map(one => one.high))];
    const { range } = move;
    const { meter } = view.procedure;
    const between = (a: number, b: number) => displayed((a + b) / 2, range.dimension, meter).text;
    if (range.high < low && range.high > limit.low)
      return { place, at: move.at, text: between(range.high, low), side: 'below' };
    if (range.low > high && range.low < limit.high)
      return { place, at: move.at, text: between(high, range.low), side: 'above' };
  }
  return undefined;
}

/** What another walk reads where it takes the same branch. */
function rangesAt({ worst, ends }: ProvedWalk, { at, outcome }: Move): readonly NonNullable<Move['range']>[] {
  const moves = [worst.end, ...ends.map(({ end }) => end)].flatMap(({ path }) => path);
  return moves.flatMap(move =>
    move.at === at && move.outcome.branch === outcome.branch && move.range ? [move.range] : [],
  );
}

function limitsPlace({ data: { action } }: Move): Place | undefined {
  return action.verb === 'measure' || action.verb === 'read' ? action.limits?.place : undefined;
}
