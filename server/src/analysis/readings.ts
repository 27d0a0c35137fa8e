import { formatRange } from '../base/quantity/format.ts';
import { existsIn } from '../model/common.ts';
import { partIn } from '../model/parts.ts';
import { type Action, type MeterPlace, type Step, type StepData, stepIn } from '../model/step.ts';
import type { MeterReading } from './electrical.ts';
import { arrivingEitherWay } from './left-overs.ts';
import { type Situation, stateOf } from './situation.ts';
import { holds } from './test.ts';
import type { Case, ProcedureView } from './view.ts';

/** What the circuit gives at one step, in the variants in which it gives the same. */
export interface Computed {
  readonly reading: MeterReading;
  /** The first situation in which it is so. */
  readonly situation: Situation;
  readonly cases: readonly Case[];
  /** Where the meter is; absent for what a module shows. */
  readonly at?: MeterPlace;
}

/** So many situations of one step are looked at, so that a hint never takes long. */
const mostSituations = 8;

/**
 * What the meter shows at a measuring step of a machine without a fault, or the module at a step that reads a voltage from it;
 * nothing where no path leads there.
 */
export function computedAt(view: ProcedureView, step: Step, cases: readonly Case[] = view.cases): Computed[] {
  const found = new Map<string, Computed & { cases: Case[] }>();
  for (const one of cases) {
    if (!existsIn(step, one.variant)) continue;
    const { action } = stepIn(step, one.variant);
    if (action.verb !== 'measure' && !(action.verb === 'read' && showsVoltage(action, one))) continue;
    for (const situation of one.flow.during(step.id).slice(0, mostSituations)) {
      const reading = readingAt(action, one, situation);
      if (!reading) continue;
      const key = JSON.stringify(rangeInWords(reading));
      const known = found.get(key);
      if (!known)
        found.set(key, { reading, situation, cases: [one], at: action.verb === 'measure' ? action : undefined });
      else if (!known.cases.includes(one)) known.cases.push(one);
    }
  }
  return [...found.values()];
}

/** What the meter shows there, or the module: the voltage that a datum is decoded from, nothing for one that comes from no pin. */
export function readingAt(
  action: Extract<Action, { verb: 'measure' | 'read' }>,
  { circuit, procedure }: Case,
  situation: Situation,
): MeterReading | undefined {
  if (action.verb === 'measure') return circuit.read(action, procedure.meter, situation);
  const { module, datum } = action;
  return module && datum && circuit.scanVoltage(module.text, datum.text, situation);
}

/**
 * The situations in which a step is done. A way to come here on which the step's own `needs` does not hold, or something was left
 * apart, is told as that, not by its readings.
 */
export function situationsAt(one: Case, data: StepData): readonly Situation[] {
  const { id, needs } = data;
  const arriving = arrivingEitherWay(one, id);
  if (!needs && !arriving) return one.flow.during(id);
  const ready = (arriving ?? one.flow.arriving(id)).filter(
    now => !needs || holds(needs, name => stateOf(now, name)) !== false,
  );
  return [...new Map(ready.map(now => one.after(data, now)).map(now => [now.key, now])).values()];
}

function showsVoltage({ module, datum }: Extract<Action, { verb: 'read' }>, { system, variant }: Case): boolean {
  const part = module && system.parts.get(module.text);
  const data = part && partIn(part, variant);
  return data?.kind === 'module' && datum !== undefined && data.scanData.get(datum.text)?.shows === 'voltage';
}

/** The reading in a few words: `1.61 V .. 1.84 V`, `OL`. */
export function rangeInWords(reading: MeterReading): string {
  switch (reading.state) {
    case 'number': {
      const range = formatRange(reading.low, reading.high, reading.dimension, 'outward');
      if (!reading.shows) return range;
      // Ohms are on the display of a continuity test; the volts of a lamp nobody sees.
      const answers = reading.shows.join(' or ');
      return reading.dimension === 'voltage' ? `${answers} (${range})` : `${range}, ${answers}`;
    }
    case 'over limit':
      return 'OL';
    case 'floating':
      return 'floating';
    case 'no contact':
      return 'no contact';
    case 'live':
      return 'live circuit';
    case 'not computed':
      return 'not computed';
    case 'not settled':
      return 'does not settle';
    case 'no solution':
      return 'no solution';
  }
}

/** The variants it holds in, with the system where there are several; empty where it holds in all. */
export function variantsInWords({ cases }: Pick<Computed, 'cases'>, all: readonly Case[]): string {
  if (cases.length === all.length) return '';
  const several = new Set(all.map(({ view }) => view.uri)).size > 1;
  const name = ({ system, variant }: Case) =>
    several ? `${system.id?.text ?? system.title ?? '…'} ${variant}` : variant;
  return cases.map(name).join(', ');
}
