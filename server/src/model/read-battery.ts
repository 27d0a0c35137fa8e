import type { Entry } from '../syntax/tree.ts';
import type { Value } from './common.ts';
import type { BatteryStates } from './parts.ts';
import { readTest, readValue } from './read-values.ts';
import type { Fields, Reader } from './reader.ts';

/** A supply by its voltage; a lead-acid battery also by its charge and by what is done to it. */
export function readSupply(kind: 'battery' | 'supply', entry: Entry, reader: Reader, fields: Fields): object {
  const volts = readValue(reader, fields.get('voltage'), 'voltage');
  return {
    kind,
    volts: kind === 'battery' ? batteryVolts(reader, volts) : volts,
    internalOhms: readValue(reader, fields.get('internal resistance'), 'resistance'),
    states: kind === 'battery' ? readStates(entry, reader, fields) : undefined,
  };
}

/** A supply may be below its other terminal; the plus of a battery is not below its minus. */
function batteryVolts(reader: Reader, volts: Value | undefined): Value | undefined {
  const cases = volts?.cases.filter(({ is, place }) => {
    if (is.nominal >= 0) return true;
    reader.report('impossible-part-value', place, 'The voltage of a battery is not below zero', {
      detail: 'It is that of its terminal + over its terminal -; which way round it is connected is said by the wires.',
      help: 'Write it without its sign.',
    });
    return false;
  });
  return cases?.length ? { cases } : undefined;
}

function readStates(entry: Entry, reader: Reader, fields: Fields): BatteryStates | undefined {
  const place = reader.place(entry.key.span);
  const first = fields.firstOf(['charge', 'cells', 'cranking when', 'charging when']);
  if (!first && !fields.get('voltage')) {
    reader.report('battery-without-voltage', place, `\`${entry.key.text}\` says neither its voltage nor its cells`, {
      detail: 'A battery gives the voltage that is stated, or that of a lead-acid battery by its cells and its charge.',
      help: 'Add `voltage: 12.6 V ± 0.3 V`, or `cells: 6` for a lead-acid battery of 12 V.',
    });
  }
  if (!first) return undefined;
  return { place, ...readCharge(reader, fields), ...readWhen(reader, fields) };
}

function readCharge(reader: Reader, fields: Fields): Pick<BatteryStates, 'charge' | 'cells'> {
  const [charge, cells] = [fields.get('charge'), fields.get('cells')];
  const share = reader.ranged(charge, 'ratio');
  const count = reader.quantity(cells, 'number');
  if (charge && share && !(share.low >= 0 && share.high <= 1)) {
    reader.report('impossible-part-value', reader.place(charge.span), 'A charge lies between 0 % and 100 %', {
      detail: 'It is a share of the full charge: a battery is empty at 0 % and full at 100 %.',
      help: 'Write it as `charge: 75 % .. 100 %`.',
    });
    return {};
  }
  if (cells && count !== undefined && !(Number.isInteger(count) && count > 0)) {
    reader.report('impossible-part-value', reader.place(cells.span), 'A battery has a whole number of cells', {
      detail: 'Six lead-acid cells in series make 12 V, twelve make 24 V.',
      help: 'Write how many cells are in series: `cells: 6`.',
    });
    return { charge: share };
  }
  return { charge: share, cells: count };
}

function readWhen(reader: Reader, fields: Fields): Pick<BatteryStates, 'crankingWhen' | 'chargingWhen'> {
  return {
    crankingWhen: readTest(reader, fields.get('cranking when')),
    chargingWhen: readTest(reader, fields.get('charging when')),
  };
}
