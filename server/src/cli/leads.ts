import type { Circuit, LeadReason, MeterReading } from '../analysis/electrical.ts';
import type { Place, Ref } from '../base/place.ts';
import { existsIn } from '../model/common.ts';
import { readLead } from '../model/lead.ts';
import { Reader } from '../model/reader.ts';
import type { Lead, MeterPlace } from '../model/step.ts';
import type { System } from '../model/system.ts';
import { unknown, WrongUse } from './wrong-use.ts';

export interface PlaceOptions {
  readonly measure: 'voltage' | 'resistance' | 'current';
  readonly red?: string;
  readonly black?: string;
  readonly around?: string;
}

/**
 * Where the meter goes, as the options say it. A lead inside a mated plug goes in from behind: measuring in thought harms nobody.
 * Throws `WrongUse` for a point that none of the circuits has; `where` names them.
 */
export function meterPlace(
  options: PlaceOptions,
  system: System,
  circuits: readonly Circuit[],
  where: string,
): MeterPlace {
  const { measure, red, black, around } = options;
  const measurePlace = placeOf(measure);
  if (around !== undefined) {
    if (measure !== 'current') throw new WrongUse('A clamp measures current only', 'say `--measure current`');
    if (red ?? black) throw new WrongUse('A clamp goes without leads', 'leave `--red` and `--black` out');
    return { measure, measurePlace, around: clamped(around, system, circuits, where) };
  }
  if (red === undefined || black === undefined) {
    const clamp = measure === 'current' ? ', or what a clamp goes `--around`' : '';
    throw new WrongUse('A meter has two leads', `say where \`--red\` and \`--black\` go${clamp}`);
  }
  return { measure, measurePlace, red: lead(red, circuits, where), black: lead(black, circuits, where) };
}

function clamped(name: string, system: System, circuits: readonly Circuit[], where: string): Ref {
  const there = [...system.wires, ...system.parts.values()]
    .filter(one => circuits.some(({ variant }) => existsIn(one, variant)))
    .map(one => one.id);
  if (!there.includes(name)) throw unknown('wire or part', name, there, where);
  return { text: name, place: placeOf(name) };
}

function lead(text: string, circuits: readonly Circuit[], where: string): Lead {
  const reader = new Reader('');
  const read = readLead(reader, { kind: 'scalar', text, quoted: false, span: placeOf(text).span });
  const [problem] = reader.problems;
  if (problem) throw new WrongUse(problem.message, problem.detail);
  const points = new Set(circuits.flatMap(circuit => [...circuit.points]));
  if (!points.has(read.point.text)) throw unknown('point', read.point.text, points, where);
  return { ...read, backProbe: true };
}

/** An option stands in no file. */
function placeOf(text: string): Place {
  return { uri: '', span: { unit: { text }, start: 0, end: text.length } };
}

/**
 * Throws `WrongUse` where a side of a plug has to be named, where one is named that the plug does not have, and where the only
 * variant asked about lacks the place.
 */
export function insistOnContact(reading: MeterReading, at: MeterPlace, variant: string | undefined): void {
  if (reading.state !== 'no contact') return;
  const { lead: name, reason } = reading;
  if (name !== 'around' && 'sides' in reason) throw aboutSide(at[name]!, name, reason);
  if (variant === undefined) return;
  const place = name === 'around' ? at.around!.text : at[name]!.point.text;
  throw new WrongUse(
    `The variant \`${variant}\` does not have \`${place}\``,
    'name another variant, or leave `--variant` out',
  );
}

function aboutSide({ point, side }: Lead, name: string, reason: Extract<LeadReason, { sides: unknown }>): WrongUse {
  const choices = reason.sides.map(one => `\`${point.text} (${one} side)\``).join(' or ');
  return reason.kind === 'which side'
    ? new WrongUse(`The plug at \`${point.text}\` is apart, so the ${name} lead needs a side`, `say ${choices}`)
    : new WrongUse(`\`${point.text}\` has no \`${side?.text} side\``, `say ${choices}`);
}
