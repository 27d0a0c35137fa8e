import type { MeterReading } from '../../analysis/electrical.ts';
import { limitsOf } from '../../analysis/limits.ts';
import { displayed } from '../../analysis/meter-display.ts';
import { rangeInWords } from '../../analysis/readings.ts';
import type { Situation } from '../../analysis/situation.ts';
import type { Case } from '../../analysis/view.ts';
import { parallelInWords } from '../../analysis/words/parallel.ts';
import { whyNoNumber } from '../../analysis/words/reading.ts';
import { formatQuantity } from '../../base/quantity/format.ts';
import type { Meter } from '../../model/procedure.ts';
import type { Action, StepData } from '../../model/step.ts';
import type { Row } from '../../protocol/preview.ts';
import { rangeInWords as limitsInWords } from '../../walk/choose.ts';

/** What a good machine shows at a step: as the author wrote it, and as the circuit itself gives it. */
export interface Expected {
  readonly rows: Row[];
  /** A reading that a good machine may show, as an example in the field. */
  readonly example?: string;
}

export function expectedAt(data: StepData, meter: Meter, of: Case | undefined, now: Situation | undefined): Expected {
  const computed = of && now && computedBy(data.action, meter, of, now);
  const rows = [...writtenRow(data, of), ...(computed ? [computed.row] : [])];
  return { rows, example: computed?.example };
}

function writtenRow(data: StepData, of: Case | undefined): Row[] {
  const { action } = data;
  if (action.verb === 'read' && action.expect)
    return [{ label: 'Expected', entries: action.expect.map(({ text }) => ({ text })) }];
  const limits = limitsOf(data, of);
  if (limits.state === 'none') return [];
  if (limits.state === 'not derived') return [{ label: 'Limits', entries: [{ text: 'not known', note: limits.why }] }];
  const row = action.verb === 'measure' && !action.limits ? action.specification?.text : undefined;
  const notes = [row, limits.isDerived ? 'from the circuit' : undefined].filter(note => note !== undefined);
  return [{ label: 'Limits', entries: [{ text: limitsInWords(limits.limit), note: notes.join(', ') || undefined }] }];
}

function computedBy(action: Action, meter: Meter, { circuit }: Case, now: Situation) {
  if (action.verb === 'measure') {
    const also = circuit.parallel(action, now);
    return fromReading(circuit.read(action, meter, now), meter, also && parallelInWords(also));
  }
  if (action.verb !== 'read' || !action.module || !action.datum) return undefined;
  const state = circuit.scan(action.module.text, action.datum.text, now);
  if (state !== undefined && action.expect) return { row: circuitRow(state), example: state };
  const volts = action.expect ? undefined : circuit.scanVoltage(action.module.text, action.datum.text, now);
  return volts && fromReading(volts, meter);
}

function fromReading(reading: MeterReading, meter: Meter, also?: string) {
  const words = rangeInWords(reading);
  if (reading.state !== 'number') {
    return { row: circuitRow(words, whyNoNumber(reading) || undefined), example: words === 'OL' ? words : undefined };
  }
  if (reading.shows && reading.dimension === 'voltage') return { row: circuitRow(words), example: reading.shows[0] };
  const nominal = formatQuantity(reading.nominal, reading.dimension);
  const notes = [nominal === words ? undefined : `nominal ${nominal}`, also].filter(note => note !== undefined);
  const { text } = displayed(reading.nominal, reading.dimension, meter);
  return { row: circuitRow(words, notes.join('; ') || undefined), example: text };
}

function circuitRow(text: string, note?: string): Row {
  return { label: 'The circuit gives', entries: [{ text, note }] };
}
