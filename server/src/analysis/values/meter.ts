import { nowhere, unwritten } from '../../base/place.ts';
import { leadTo } from '../../model/lead.ts';
import { handheldMeter } from '../../model/meter.ts';
import type { Meter } from '../../model/procedure.ts';
import type { MeterPlace } from '../../model/step.ts';
import type { Circuit, MeterReading } from '../electrical.ts';
import { errorAt } from '../meter-display.ts';
import type { Situation } from '../situation.ts';

/** The meter that every value of a table is read with. Two places of a volt are printed, whatever range the reader's meter chooses. */
export const tableMeter: Meter = {
  ...handheldMeter,
  voltage: { ...handheldMeter.voltage, resolution: 0.01, ranges: [] },
};

/** Both leads go in from behind where the plugs are mated. */
export function voltage(circuit: Circuit, red: string, black: string, now: Situation): MeterReading {
  return circuit.read(
    { measure: 'voltage', measurePlace: nowhere, red: leadTo(red), black: leadTo(black) },
    tableMeter,
    now,
  );
}

/** Between two terminals of a part whose plug is off. */
export function resistance(circuit: Circuit, red: string, black: string, now: Situation): MeterReading {
  const side = unwritten('part');
  const at: MeterPlace = {
    measure: 'resistance',
    measurePlace: nowhere,
    red: leadTo(red, { side }),
    black: leadTo(black, { side }),
  };
  return circuit.read(at, tableMeter, now);
}

/** Whether somebody with this meter sees a difference: a state that moves the display by less than its accuracy says nothing. */
export function tellsApart(a: MeterReading, b: MeterReading): boolean {
  if (a.state !== 'number' || b.state !== 'number') return a.state !== b.state;
  const range = a.dimension === 'resistance' ? tableMeter.resistance : tableMeter.voltage;
  // An infinite end, `OL`, is told from every number.
  const differs = (x: number, y: number) =>
    x !== y && (!Number.isFinite(x - y) || Math.abs(x - y) > errorAt(Math.max(Math.abs(x), Math.abs(y)), range));
  return differs(a.low, b.low) || differs(a.nominal, b.nominal) || differs(a.high, b.high);
}
