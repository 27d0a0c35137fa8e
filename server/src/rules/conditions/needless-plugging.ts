import type { Ref } from '../../model/common.ts';
import type { EndingData } from '../../model/procedure.ts';
import type { StepData } from '../../model/step.ts';
import { lampProcedure } from '../example.ts';
import type { Rule } from '../rule.ts';
import { name } from '../wording.ts';
import { everythingReached, reachedSteps } from './arrivals.ts';

export const connectWhatIsTogether: Rule = {
  id: 'connect-what-is-together',
  severity: 'hint',
  group: 'conditions',
  on: 'procedure',
  title: 'Something put together that nothing has taken apart',
  explanation: `
On every path to this place the connector is together and the part is in its place. Either the instruction is left over, or a step before
should have taken it apart and does not say so; then what was measured there is worked out for a plug that is on.

Delete it, or write the missing \`disconnect\` or \`remove\`.`,
  bad: lampProcedure(`
steps:
  look:
    set: { key: run }
    measure: voltage
    red: E1.1
    black: GND-1
    limits: 11.5 V .. 13 V
    then: { within: not-found, otherwise: ask-the-maker }
endings:
  not-found: { no fault: The lamp is bright }
  ask-the-maker: { refer: Ask the maker, connect: [X1] }
#                                                  ^^ hint connect-what-is-together: \`X1\` is together on every path that leads here
`),
  good: lampProcedure(`
steps:
  look:
    set: { key: off }
    disconnect: [X1]
    measure: resistance
    red: X1/1 (E1 side)
    black: X1/2 (E1 side)
    limits: 9 Ω .. 11 Ω
    then: { within: not-found, otherwise: ask-the-maker }
endings:
  not-found: { no fault: The lamp is bright, connect: [X1] }
  ask-the-maker: { refer: Ask the maker, connect: [X1] }
`),
  *check(view) {
    for (const { data, cases } of everythingReached(view, joinsAny)) {
      for (const ref of [...data.connect, ...data.refit]) {
        if (cases.some(({ situations }) => situations.some(now => now.apart.has(ref.text)))) continue;
        yield {
          rule: 'connect-what-is-together',
          place: ref.place,
          message: `${name(ref.text)} is together on every path that leads here`,
          detail: 'No step on the way takes it apart.',
          help: 'Delete it here, or write `disconnect` or `remove` where it is taken apart.',
        };
      }
    }
  },
};

export const disconnectWhatIsApart: Rule = {
  id: 'disconnect-what-is-apart',
  severity: 'hint',
  group: 'conditions',
  on: 'procedure',
  title: 'Something taken apart that is apart already',
  explanation: `
What is disconnected stays apart until a step connects it. On every path to this step it is apart already, so a technician looks for a plug to
pull that hangs loose, and wonders whether another one is meant.

Delete it, or connect it in a step before.`,
  bad: lampProcedure(`
steps:
  look:
    set: { key: off }
    disconnect: [X1]
    measure: resistance
    red: X1/1 (E1 side)
    black: X1/2 (E1 side)
    limits: 9 Ω .. 11 Ω
    then: { within: ground, otherwise: ask-the-maker }
  ground:
    disconnect: [X1]
#                ^^ hint disconnect-what-is-apart: \`X1\` is apart already on every path that leads here
    measure: resistance
    red: X1/2 (GND-1 side)
    black: GND-1
    limits: below 2 Ω
    then: { within: not-found, otherwise: ask-the-maker }
endings:
  not-found: { no fault: The lamp is bright, connect: [X1] }
  ask-the-maker: { refer: Ask the maker, connect: [X1] }
`),
  good: lampProcedure(`
steps:
  look:
    set: { key: off }
    disconnect: [X1]
    measure: resistance
    red: X1/1 (E1 side)
    black: X1/2 (E1 side)
    limits: 9 Ω .. 11 Ω
    then: { within: ground, otherwise: ask-the-maker }
  ground:
    measure: resistance
    red: X1/2 (GND-1 side)
    black: GND-1
    limits: below 2 Ω
    then: { within: not-found, otherwise: ask-the-maker }
endings:
  not-found: { no fault: The lamp is bright, connect: [X1] }
  ask-the-maker: { refer: Ask the maker, connect: [X1] }
`),
  *check(view) {
    for (const { data, cases } of reachedSteps(view, partsAny)) {
      const joinedHere = new Set([...data.connect, ...data.refit].map(r => r.text));
      const isApart = ({ text }: Ref) =>
        !joinedHere.has(text) && cases.every(({ situations }) => situations.every(now => now.apart.has(text)));
      for (const ref of [...data.disconnect, ...data.remove].filter(isApart)) {
        yield {
          rule: 'disconnect-what-is-apart',
          place: ref.place,
          message: `${name(ref.text)} is apart already on every path that leads here`,
          detail: 'A step before takes it apart, and nothing between puts it back.',
          help: 'Delete it here, or connect it in a step before.',
        };
      }
    }
  },
};

function joinsAny({ connect, refit }: StepData | EndingData): boolean {
  return connect.length + refit.length > 0;
}

/** A step that operates the machine names again what is meant to stay apart. */
function partsAny({ disconnect, remove, action }: StepData): boolean {
  return disconnect.length + remove.length > 0 && action.verb !== 'operate';
}
