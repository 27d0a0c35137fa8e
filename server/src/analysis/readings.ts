import { formatRange } from '../base/quantity/format.ts';
import { existsIn } from '../model/common.ts';
import { partIn } from '../model/parts.ts';
import { type Action, type MeterPlace, type Step, stepIn } from '../model/step.ts';
import type { MeterReading } from './electrical.ts';
import type { Situation } from './situation.ts';
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
      const reading =
        action.verb === 'measure'
          ? one.circuit.read(action, view.procedure.meter, situation)
          : one.circuit.scanVoltage(action.module!.text, action.datum!.text, situation);
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
