import type { Node } from '../syntax/tree.ts';
import type { Ref } from './common.ts';
import type { TablePoint } from './parts.ts';
import { readTest, readValue } from './read-values.ts';
import { entriesOf, Fields, type Reader } from './reader.ts';

/** A lamp by its rating; what the curve between cold and hot is, is not the model's to say. */
export function readLamp(reader: Reader, fields: Fields): object {
  return {
    kind: 'lamp',
    ratedV: reader.quantity(fields.get('voltage'), 'voltage'),
    powerW: reader.ranged(fields.get('power'), 'power'),
    coldOhms: reader.ranged(fields.get('cold resistance'), 'resistance'),
  };
}

export function readMotor(reader: Reader, fields: Fields): object {
  const running = new Fields(fields.get('running'));
  const ratedV = reader.quantity(running.get('voltage'), 'voltage');
  const amps = reader.ranged(running.get('current'), 'current');
  return {
    kind: 'motor',
    ohms: readValue(reader, fields.get('resistance'), 'resistance'),
    running: ratedV !== undefined && amps ? { ratedV, amps } : undefined,
    stalledWhen: readTest(reader, fields.get('stalled when')),
  };
}

export function readJunction(reader: Reader, fields: Fields): object {
  return {
    forwardV: reader.ranged(fields.get('forward voltage'), 'voltage'),
    zenerV: reader.ranged(fields.get('zener voltage'), 'voltage'),
  };
}

export function readTransistor(reader: Reader, fields: Fields): object {
  return {
    kind: 'transistor',
    saturationV: reader.quantity(fields.get('saturation voltage'), 'voltage'),
    isPnp: reader.text(fields.get('polarity'))?.text === 'PNP',
  };
}

/** A table of voltage and current. Points that do not rise are told, and the part then counts as not computed. */
export function readTable(reader: Reader, name: Ref, node: Node | undefined): object {
  const items = node?.kind === 'list' ? node.items : [];
  const points = items.flatMap((item): (TablePoint & { item: Node })[] => {
    const fields = new Fields(item);
    const volts = reader.quantity(fields.get('at'), 'voltage');
    const amps = reader.ranged(fields.get('is'), 'current');
    return volts === undefined || !amps ? [] : [{ volts, amps, item }];
  });
  const wrong = points.find(({ volts, amps }, i) => {
    const before = points[i - 1];
    return before && (volts <= before.volts || amps.nominal < before.amps.nominal);
  });
  if (wrong) {
    const { item } = wrong;
    reader.report(
      'falling-table',
      reader.place(entriesOf(item)[0]?.value.span ?? item.span),
      `The table of \`${name.text}\` falls here`,
      {
        detail:
          'More voltage gives at least as much current; with a table that falls the circuit would have several answers.',
        help: 'Write the points by rising voltage, each with as much current as the one before or more.',
      },
    );
  }
  const isUsable = !wrong && points.length >= 2 && points.length === items.length;
  return { kind: 'two-terminal', points: isUsable ? points.map(({ volts, amps }) => ({ volts, amps })) : [] };
}

/** `{ diode: 85 to 86 }`: the coil terminals of its anode and its cathode. */
export function readSuppressionDiode(reader: Reader, node: Node | undefined): readonly [string, string] | undefined {
  const [anode, cathode] = reader.text(node)?.text.split(/\s+to\s+/) ?? [];
  return anode && cathode ? [anode.trim(), cathode.trim()] : undefined;
}
