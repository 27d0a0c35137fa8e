import { lampProcedure } from '../example.ts';
import type { Rule } from '../rule.ts';
import { name } from '../wording.ts';
import { circumstances } from './judged.ts';
import { whereReading } from './step-problems.ts';

export const floatingLead: Rule = {
  id: 'floating-lead',
  severity: 'error',
  group: 'circuit',
  on: 'procedure',
  title: 'A voltage measured at a point that nothing drives',
  explanation: `
The two leads are at points with no path between them, so the meter shows whatever it picks up, mostly near zero. Limits that pass there
pass for the wrong reason: a switch is open, a connector apart, the key off.

Set the condition under which the point is driven, or measure on the half of the plug that is.`,
  bad: lampProcedure(`
steps:
  look:
    measure: voltage
    red: S1.2 (back-probe)
#        ^^^^ error floating-lead: Nothing ties \`S1.2\` to the other lead
    black: G1.+
    limits: below 1 V
    then: { within: not-found, otherwise: ask-the-maker }
endings:
  not-found: { no fault: The lamp is bright, connect: [X1] }
  ask-the-maker: { refer: Ask the maker, connect: [X1] }
`).replace('    measure', '    set: { key: off }\n    disconnect: [X1]\n    measure'),
  good: lampProcedure(`
steps:
  look:
    set: { key: run }
    measure: voltage
    red: S1.2 (back-probe)
    black: GND-1
    limits: 11 V .. 13 V
    then: { within: not-found, otherwise: ask-the-maker }
endings:
  not-found: { no fault: The lamp is bright }
  ask-the-maker: { refer: Ask the maker }
`),
  check: whereReading('floating', (judged, [first, ...rest]) => {
    const { action, view, data } = judged;
    const lead = action.verb === 'measure' ? action[first.reading.lead === 'black' ? 'black' : 'red'] : undefined;
    return {
      rule: 'floating-lead',
      place: lead?.point.place ?? data.actionPlace,
      message: `Nothing ties ${lead ? name(lead.point.text) : 'this pin'} to the other lead`,
      detail: `${circumstances([first, ...rest], view)} no path joins the two leads, so the meter shows nothing of the circuit.`,
      help: 'Set the condition under which the point is driven, or move the lead.',
    };
  }),
};
