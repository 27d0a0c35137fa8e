import type { Fault } from '../../analysis/faults/fault.ts';
import type { StepData } from '../../model/step.ts';
import { isProvoked } from '../../proof/natures.ts';
import type { ProvedWalk } from '../../proof/prove.ts';
import type { Rule } from '../rule.ts';
import { name } from '../wording.ts';
import { asFinding, blamed, faultsInWords, lastBranch } from './blame.ts';
import { coldHeater, heaterWithLowLimit, soundHeater } from './example.ts';
import { badWalks } from './proved.ts';

export const faultNotFound: Rule = {
  id: 'fault-not-found',
  severity: 'warning',
  group: 'proof',
  on: 'procedure',
  needsWholeFile: true,
  title: 'A fault that ends at nothing wrong',
  explanation: `
Every fault that can bring a technician here is walked through the procedure. This one passes every test on its way and ends where the
procedure says that nothing is wrong, or that all is well without a repair.

Add a measurement that shows it. A fault which the procedure leaves to others on purpose stands under \`leaves out\`, with the reason.`,
  bad: heaterWithLowLimit,
  good: soundHeater,
  *check(view) {
    const walks = badWalks(view, walk => isNotFound(walk) && isLookedFor(walk));
    for (const about of blamed(walks, walk => lastBranch(view, walk))) {
      const { end } = about.walks[0].worst;
      yield asFinding('fault-not-found', view, about, {
        message: faultsInWords(about, 'ends here as if nothing were wrong', 'end here as if nothing were wrong'),
        detail: `It passes every test and comes to ${name(end.kind === 'ending' ? end.name : '')}.`,
        help: 'Add a test that shows it, or leave it out with the reason.',
      });
    }
  },
};

export const intermittentNotCaught: Rule = {
  id: 'intermittent-not-caught',
  severity: 'warning',
  group: 'proof',
  on: 'procedure',
  needsWholeFile: true,
  title: 'A fault that comes and goes, and that nothing here can catch',
  explanation: `
A fault that comes and goes looks like a good machine until something brings it out. On the way that this one takes no step wiggles, heats,
cools, wets or drives where it sits, and none records it, so every test passes.

Add \`provoke\` to a step that measures, or a step that records.`,
  bad: coldHeater(`
steps:
  look:
    title: Voltage at the heater
    set: { key: run }
    measure: voltage
    red: H1.1 (back-probe)
    black: GND-1
    limits: at least 11 V
    then: { within: not-found, otherwise: everything }
#                   ^^^^^^^^^ warning intermittent-not-caught: 34 faults that come and go end here uncaught
  confirm: { operate: Switch the heater on, then: { it gets warm: done, it stays cold: look } }
endings:
  not-found: { no fault: The heater has its voltage }
  everything: { mend: [H1, G1, W1, W2, S1, W3, W5, X1, W4], confirm: confirm }
  done: { repaired: The heater gets warm }
`).replace('nature: hard', 'nature: intermittent'),
  good: coldHeater(`
steps:
  look:
    title: Voltage across the heater
    set: { key: run }
    measure: voltage
    red: H1.1 (back-probe)
    black: H1.2 (back-probe)
    limits: at least 11 V
    provoke: { wiggle: [G1, W1, F1, W2, S1, W3, W5, X1, W4, GND-1] }
    then: { within: the-heater, otherwise: around-it }
  confirm: { operate: Switch the heater on, then: { it gets warm: done, it stays cold: look } }
endings:
  the-heater: { refer: Leave it to the maker of the heater }
  around-it: { mend: [G1, W1, W2, S1, W3, W5, X1, W4, H1], confirm: confirm }
  done: { repaired: The heater gets warm }
`).replace('nature: hard', 'nature: intermittent'),
  *check(view) {
    const walks = badWalks(view, walk => isNotFound(walk) && !isLookedFor(walk));
    for (const about of blamed(walks, walk => lastBranch(view, walk))) {
      const many = about.walks.length;
      yield asFinding('intermittent-not-caught', view, about, {
        message:
          many === 1
            ? faultsInWords(about, 'comes and goes, and ends here uncaught', '')
            : `${many} faults that come and go end here uncaught`,
        detail: 'No step on its way provokes or records it.',
        help: 'Add `provoke` to a step that measures, or record it.',
      });
    }
  },
};

function isNotFound({ fault, worst }: ProvedWalk): boolean {
  return fault !== undefined && worst.result === 'not found' && !worst.isUndecided;
}

/** A step on the way could have shown it. */
function isLookedFor({ fault, nature, exploration }: ProvedWalk): boolean {
  if (nature === 'hard' || !fault) return true;
  return [...exploration.met.values()].some(data => data && 'branches' in data && catches(data, fault));
}

function catches(data: StepData, fault: Fault): boolean {
  return data.action.verb === 'record' || isProvoked([fault], [fault], data);
}
