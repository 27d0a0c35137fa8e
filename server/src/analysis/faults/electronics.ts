import { drifted, throughPart } from './extents.ts';
import type { Derived } from './fault.ts';
import { bridged, broken, moved } from './loads.ts';
import type { WiredPart } from './part.ts';
import { customary, type Weight, weight } from './weights.ts';

/** Semiconductors, sensors and what else is described by a curve. They are changed at their terminals, whatever is inside. */
export function electronicFaults(part: WiredPart): Derived[] {
  switch (part.data.kind) {
    case 'diode':
    case 'led':
    case 'zener':
      return [broken(part, customary(0.6)), bridged(part, customary(1))];
    case 'thermistor':
    case 'rtd':
      return [
        broken(part, weight('thermistor', 'open')),
        bridged(part, weight('thermistor', 'short')),
        moved(part, 'out of curve', 'is off its curve', weight('thermistor', 'parameter change')),
      ];
    case 'thermocouple':
    case 'current loop':
      return [
        broken(part, customary(1)),
        bridged(part, customary(0.5)),
        moved(part, 'out of curve', 'is off its curve', customary(0.4)),
      ];
    case 'capacitor':
    case 'two-terminal':
      return [broken(part, customary(1)), bridged(part, customary(0.5))];
    case 'transistor':
      return [
        part.fault('open', 'never conducts', customary(0.6), () => part.letGo(1)),
        part.fault('shorted', 'conducts always', customary(1), e => part.bridge(1, 2, e!.value), throughPart),
      ];
    case 'potentiometer':
      return [
        ...threeWires(part, weight('potentiometer', 'open', 3), customary(0.1)),
        offCurve(part, weight('potentiometer', 'erratic')),
      ];
    case 'ratiometric sensor':
      return [...threeWires(part, customary(0.5), customary(0.2)), offCurve(part, customary(0.4))];
    case 'hall sensor':
      return threeWires(part, customary(0.5), customary(0.2));
    default:
      return [];
  }
}

/** Each terminal of three comes loose inside, or the signal touches one of the others. */
function threeWires(part: WiredPart, open: Weight, short: Weight): Derived[] {
  const names = part.data.terminals.map(t => t.text);
  // Of a potentiometer the middle terminal is the wiper, as the signal of a sensor is.
  const [first, signal, last] = names;
  const loose = names.map(name => {
    const words = name === 'supply' || name === 'signal' || name === 'ground' ? name : `terminal ${name}`;
    return part.fault(`${words} open`, `has its ${words} broken inside`, open, () => part.letGo(name));
  });
  const touching = [first, last].flatMap(other =>
    other === undefined || signal === undefined
      ? []
      : [
          part.fault(
            `${signal} shorted to ${other}`,
            `has its ${signal} shorted to ${other} inside`,
            short,
            extent => part.bridge(signal, other, extent!.value),
            throughPart,
          ),
        ],
  );
  return [...loose, ...touching];
}

/** What divides a voltage is off its curve when the part of it towards its first terminal has moved. */
function offCurve(part: WiredPart, how: Weight): Derived {
  const nodes = [part.own(0)].filter(node => node !== undefined);
  return part.fault(
    'out of curve',
    'is off its curve',
    how,
    extent => [{ do: 'scale', nodes, factor: Math.max(0, 1 + extent!.value) }],
    drifted,
  );
}
