import { lampProcedure } from '../example.ts';
import { stageRules } from './stage.ts';

/** Limits that cannot be read, or that no reading can pass. */
export const limitMistakes = stageRules({
  'wrong-unit': {
    title: 'A unit of another kind',
    group: 'limits',
    explanation: `
Volts stand where ohms belong, or the other way round. Either the number was copied to the wrong line, or the step measures
something else than was meant.`,
    bad: voltageStep(`10 Ω .. 12 Ω
#              ^ error wrong-unit: \`10 Ω\` is a resistance; a voltage is expected`),
    good: voltageStep('at least 11.5 V'),
  },
  'limit-word': {
    title: 'Another word for a limit',
    group: 'limits',
    explanation: `
A limit with one end begins with \`below\`, \`above\`, \`at most\` or \`at least\`, so that everybody knows whether the end itself
passes. A quick fix writes the word.`,
    bad: voltageStep(`over 11.5 V
#           ^^^^ error limit-word: \`over\` is written \`above\` in a limit [fix]`),
    good: voltageStep('above 11.5 V'),
  },
  'empty-range': {
    title: 'A range of no width',
    group: 'limits',
    explanation: `
Both ends are equal, so no reading but this one passes, and no meter shows it exactly.`,
    bad: voltageStep(`11.5 V .. 11.5 V
#           ^^^^^^^^^^^^^^^^ error empty-range: Both ends of the range are \`11.5 V\``),
    good: voltageStep('11.5 V .. 13.5 V'),
  },
  'exact-limit': {
    title: 'A limit that is a single value',
    group: 'limits',
    explanation: `
No reading equals a value exactly. Write a range or a tolerance, so that a good system passes.`,
    bad: voltageStep(`12 V
#           ^^^^ error exact-limit: \`12 V\` is one value; a limit has room for tolerances`),
    good: voltageStep('12 V ± 1.5 V'),
  },
  'percent-of-temperature': {
    title: 'A percentage of a temperature',
    group: 'limits',
    explanation: `
Where zero lies on a temperature scale is a matter of the scale, so five per cent of 20 °C mean nothing. Write the tolerance in
degrees: \`20 °C ± 1 K\`.`,
    bad: temperatureStep(`20 °C ± 5 %
#                   ^^^ error percent-of-temperature: A temperature has no tolerance in percent: \`5 %\``),
    good: temperatureStep('20 °C ± 1 K'),
  },
});

function voltageStep(limits: string): string {
  return lampProcedure(`
steps:
  look:
    set: { key: run }
    measure: voltage
    red: E1.1
    black: GND-1
    limits: ${limits}
    then: { within: not-found, otherwise: ask-the-maker }
endings:
  ask-the-maker: { refer: Ask the maker }
  not-found: { no fault: The lamp is bright }
`);
}

/** Reads the temperature of the oil, which the keypad system does not give as a voltage. */
function temperatureStep(limits: string): string {
  return lampProcedure(`
steps:
  look:
    read: A1 oil temperature
    limits: ${limits}
    then: { within: not-found, otherwise: ask-the-maker }
endings:
  ask-the-maker: { refer: Ask the maker }
  not-found: { no fault: The oil is cold }
`).replace('lamp.system.yaml', 'keypad.system.yaml');
}
