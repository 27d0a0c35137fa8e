import { exact } from '../../../base/ranged.ts';
import { diodeSegments, siliconJunction } from '../../../circuit/curves/diode.ts';
import type { Transistor } from '../../../model/parts.ts';
import { noElements, type PartElements, type Surroundings } from '../surroundings.ts';

/** Collector to emitter while it is switched on, where the file does not say (common practice, no source). */
const usualSaturationV = 0.2;
/** The same for each ampere on top (common practice, no source). */
const usualOhms = exact(0.05);

/**
 * A transistor as a switch: its base is a diode to its emitter, and while that conducts, current flows from collector to emitter with the
 * saturation voltage: a switch is driven with more base current than it needs. What it does between on and off, where its gain counts, is
 * not modelled.
 */
export function transistorElements(id: string, data: Transistor, around: Surroundings): PartElements {
  const out = noElements();
  const [base, collector, emitter] = data.terminals.map(t => around.node(t.text));
  if (base === undefined || collector === undefined || emitter === undefined) return out;
  const turned = <T>(from: T, to: T): readonly [T, T] => (data.isPnp ? [to, from] : [from, to]);
  const [anode, cathode] = turned(base, emitter);
  const junction = `${id} base`;
  out.bends.push({ id: junction, a: anode, b: cathode, segments: diodeSegments(siliconJunction) });
  out.senses.push({ name: id, bend: junction });
  if (around.isOn(id)) {
    const [a, b] = turned(collector, emitter);
    const volts = exact(data.saturationV ?? usualSaturationV);
    out.bends.push({
      id: `${id} collector`,
      a,
      b,
      segments: diodeSegments({ volts, ohms: data.saturationOhms ?? usualOhms }),
    });
  }
  return out;
}
