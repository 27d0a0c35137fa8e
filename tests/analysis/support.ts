import type { MeterReading, NumberReading } from '../../server/src/analysis/electrical.ts';
import { type Situation, situation } from '../../server/src/analysis/situation.ts';
import type { ProcedureView, SystemView } from '../../server/src/analysis/view.ts';
import { Workspace } from '../../server/src/analysis/workspace.ts';
import { handheldMeter } from '../../server/src/model/meter.ts';
import type { Lead, MeasureKind, MeterPlace } from '../../server/src/model/step.ts';

export const uri = 'file:///project/some.system.yaml';
const span = { unit: { text: '' }, start: 0, end: 0 };
const place = { uri, span };

/** A workspace that holds just this system. */
export function systemOf(text: string): SystemView {
  const workspace = new Workspace();
  workspace.set(uri, text);
  return workspace.view(uri) as SystemView;
}

/** A workspace with a system and a procedure that applies to it. */
export function procedureOf(system: string, procedure: string): ProcedureView {
  const workspace = new Workspace();
  workspace.set(uri, system);
  workspace.set('file:///project/some.procedure.yaml', procedure);
  return workspace.view('file:///project/some.procedure.yaml') as ProcedureView;
}

/** `X1/2 (E1 side)`; every lead may go in from behind a plug. */
export function lead(text: string): Lead {
  const [point = '', side] = text.split(/ \(| side\)/);
  return {
    place,
    point: { text: point, place },
    side: side ? { text: side, place } : undefined,
    backProbe: true,
  };
}

export interface Question {
  readonly measure: MeasureKind;
  readonly red: string;
  readonly black: string;
  readonly set?: Readonly<Record<string, string>>;
  readonly apart?: readonly string[];
  readonly inputOhms?: number;
}

/** What the meter shows in the first variant. */
export function ask(view: SystemView, question: Question, variant = view.system.variants[0]!): MeterReading {
  const circuit = view.circuit(variant);
  const { measure, red, black, inputOhms = handheldMeter.inputOhms } = question;
  const at: MeterPlace = { measure, measurePlace: place, red: lead(red), black: lead(black) };
  return circuit.read(at, { ...handheldMeter, inputOhms }, situationOf(view, question, variant));
}

function situationOf(view: SystemView, { set = {}, apart = [] }: Question, variant: string): Situation {
  const { rest } = view.circuit(variant);
  return situation(new Map([...rest.states, ...Object.entries(set)]), new Set(apart));
}

/** The reading as a number, or a failed test that shows what there was instead. */
export function number(reading: MeterReading): NumberReading {
  if (reading.state !== 'number') throw new Error(`no number: ${JSON.stringify(reading)}`);
  return reading;
}
