import { lampProcedure } from '../example.ts';
import type { Rule } from '../rule.ts';
import { named } from '../wording.ts';
import { circumstances } from './judged.ts';
import { whereReading } from './step-problems.ts';

export const ohmsOnLiveCircuit: Rule = {
  id: 'ohms-on-live-circuit',
  severity: 'error',
  group: 'safety',
  on: 'procedure',
  title: 'Resistance measured on a live circuit',
  explanation: `
An ohmmeter sends its own small current through the part. Where a supply drives the same path, the reading means nothing, the meter's fuse
can blow, and a meter without one can be damaged.

Open the supply path first: turn the key off, remove the fuse, or disconnect the plug, and measure on the side that is cut off.`,
  bad: lampProcedure(`
steps:
  look:
    set: { key: run }
    measure: resistance
#   ^^^^^^^ error ohms-on-live-circuit: Resistance is measured while a supply drives this path
    red: E1.1
    black: E1.2
    limits: 9 Ω .. 11 Ω
    then: { within: not-found, otherwise: ask-the-maker }
endings:
  not-found: { no fault: The lamp is bright }
  ask-the-maker: { refer: Ask the maker }
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
  check: whereReading('live', ({ view, data }, [first, ...rest]) => ({
    rule: 'ohms-on-live-circuit',
    place: data.actionPlace,
    message: 'Resistance is measured while a supply drives this path',
    detail: `${circumstances([first, ...rest], view)} ${named(first.reading.supplies) || 'a supply'} ${first.reading.supplies.length > 1 ? 'drive' : 'drives'} a current between the leads.`,
    help: 'Turn off, remove the fuse or disconnect the plug first.',
  })),
};
