import type { ParallelPath } from '../../analysis/electrical.ts';
import { aloneInWords, throughInWords } from '../../analysis/words/parallel.ts';
import { formatQuantity } from '../../base/quantity/format.ts';
import { lampProcedure } from '../example.ts';
import type { Finding, Rule } from '../rule.ts';
import { name } from '../wording.ts';
import { circumstances, type Judged, judgedSteps, type Outcome } from './judged.ts';

export const readsParallelPath: Rule = {
  id: 'reads-parallel-path',
  severity: 'information',
  group: 'circuit',
  on: 'procedure',
  title: 'A resistance that is also read through another part',
  explanation: `
The part stays wired, and the current of the ohmmeter goes through what lies beside it as well. The reading is lower than that of the part
alone, and a part that is open still reads like something. It is told where the other path moves the reading by more than 2 %.

Take the part out of its circuit: pull its plug, or open one end. Limits that count both paths in are right for a good machine, but tell less
of the part.`,
  bad: lampProcedure(`
steps:
  look:
    measure: resistance
#   ^^^^^^^ information reads-parallel-path: This resistance is also read through \`K1\`'s coil
    red: R1.1
    black: R1.2
    limits: 45 Ω .. 55 Ω
    then: { within: not-found, otherwise: ask-the-maker }
endings:
  ask-the-maker: { refer: Ask the maker }
  not-found: { no fault: The lamp is bright }
#- /lamp.system.yaml
format: 1
system: lamp
parts:
  R1: { kind: resistor, resistance: 100 Ω ± 1 % }
  K1: { kind: relay, coil: 100 Ω ± 5 %, pull-in: 8 V, drop-out: 1.5 V, terminals: [1, 2, 3, 4, 5] }
grounds:
  GND-1: { title: Frame }
wires:
  - W1: R1.1 to K1.1, red
  - W2: R1.2 to GND-1, black
  - W3: K1.2 to GND-1, black
`),
  good: lampProcedure(`
steps:
  look:
    disconnect: [R1]
    measure: resistance
    red: R1.1 (part side)
    black: R1.2 (part side)
    limits: 98 Ω .. 102 Ω
    then: { within: not-found, otherwise: ask-the-maker }
endings:
  ask-the-maker: { refer: Ask the maker, connect: [R1] }
  not-found: { no fault: The lamp is bright, connect: [R1] }
#- /lamp.system.yaml
format: 1
system: lamp
parts:
  R1: { kind: resistor, resistance: 100 Ω ± 1 % }
  K1: { kind: relay, coil: 100 Ω ± 5 %, pull-in: 8 V, drop-out: 1.5 V, terminals: [1, 2, 3, 4, 5] }
grounds:
  GND-1: { title: Frame }
wires:
  - W1: R1.1 to K1.1, red
  - W2: R1.2 to GND-1, black
  - W3: K1.2 to GND-1, black
`),
  *check(view) {
    for (const judged of judgedSteps(view)) {
      const { action } = judged;
      if (action.verb !== 'measure') continue;
      for (const outcome of judged.outcomes) {
        const path = outcome.reading.state === 'number' && outcome.one.circuit.parallel(action, outcome.situation);
        if (!path || !isMoved(path, judged)) continue;
        yield finding(judged, outcome, path);
        break;
      }
    }
  },
};

/** By more than what nobody would mind, or past the whole width of the limits. */
function isMoved({ ohms, aloneOhms }: ParallelPath, { limit }: Judged): boolean {
  const moved = aloneOhms - ohms;
  const width =
    limit && Number.isFinite(limit.high) && limit.low > 0 ? limit.high - limit.low : Number.POSITIVE_INFINITY;
  return aloneOhms === Number.POSITIVE_INFINITY || moved > 0.02 * aloneOhms || moved > width;
}

function finding(judged: Judged, outcome: Outcome, { meant, through, ohms, aloneOhms }: ParallelPath): Finding {
  return {
    rule: 'reads-parallel-path',
    place: judged.data.actionPlace,
    message: `This resistance is also read through ${throughInWords(through.slice(0, 1))}${through.length > 1 ? ' and others' : ''}`,
    detail: `${circumstances([outcome], judged.view)}, ${name(meant)} alone ${aloneInWords(aloneOhms)}; with the path through ${throughInWords(through)} beside it the meter reads ${formatQuantity(ohms, 'resistance')}.`,
    help: `Pull the plug of ${name(meant)} or open one of its ends, so that the meter reads it alone.`,
  };
}
