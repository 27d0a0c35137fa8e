import type { Meter } from '../model/meter.ts';
import type { lampAnswers, soundAnswers } from '../model/meter-answers.ts';
import type { MeasureKind } from '../model/step.ts';
import type { MeterReading, NumberReading } from './electrical.ts';

type Answer = (typeof lampAnswers)[number] | (typeof soundAnswers)[number];

/** A reading with what is seen of a test lamp or heard of a continuity test over all tolerances, that at nominal values first. */
export function withAnswers(reading: MeterReading, measure: MeasureKind, meter: Meter): MeterReading {
  if (measure === 'continuity') {
    if (reading.state === 'over limit') return { ...reading, shows: ['silent'] };
    const heard = (ohms: number): Answer => (ohms < meter.continuity.belowOhms ? 'beeps' : 'silent');
    return reading.state === 'number' ? { ...reading, shows: answersIn(reading, ['beeps', 'silent'], heard) } : reading;
  }
  if (measure !== 'test lamp' || reading.state !== 'number') return reading;
  const { litFromV, dimFromV } = meter.testLamp;
  const seen = (volts: number): Answer => {
    const size = Math.abs(volts);
    return size >= litFromV ? 'lit' : size >= dimFromV ? 'dim' : 'dark';
  };
  return { ...reading, shows: answersIn(reading, ['dark', 'dim', 'lit'], seen) };
}

/** The answers come in the order of the size of what is measured, so all between those of the ends are possible too. */
function answersIn({ low, nominal, high }: NumberReading, order: readonly Answer[], answer: (value: number) => Answer) {
  const smallest = low <= 0 && high >= 0 ? 0 : Math.min(Math.abs(low), Math.abs(high));
  const places = [answer(smallest), answer(Math.max(Math.abs(low), Math.abs(high)))].map(one => order.indexOf(one));
  const possible = order.slice(Math.min(...places), Math.max(...places) + 1);
  const first = answer(nominal);
  return [first, ...possible.filter(one => one !== first)];
}
