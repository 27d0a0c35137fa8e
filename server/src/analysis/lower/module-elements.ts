import { formatQuantity } from '../../base/quantity/format.ts';
import type { Ranged } from '../../base/ranged.ts';
import { exact } from '../../base/ranged.ts';
import { leakageSegments } from '../../circuit/curves/leakage.ts';
import type { NodeId } from '../../circuit/network.ts';
import { existsIn } from '../../model/common.ts';
import type { Module, Pin } from '../../model/parts.ts';
import { noElements, type PartElements, type Surroundings } from './surroundings.ts';
import { frame } from './wiring.ts';

/**
 * The pins of a module. They refer to its ground pin. Pull-ups to one voltage share one inside rail, whose tolerance therefore
 * moves them together. The rail of a module without power counts as discharged to its ground, so that an ohmmeter reads the
 * pull-ups as resistors to ground (common practice, no source).
 */
export function moduleElements(id: string, data: Module, around: Surroundings): PartElements {
  const out = noElements();
  const ground = (data.ground && around.node(data.ground.text)) ?? frame;
  const powered = around.isOn(id);
  const rails = new Map<string, NodeId>();
  const feed = data.powered && around.node(data.powered.pin.text);
  if (feed !== undefined) out.senses.push({ name: id, red: feed, black: ground, aboveV: data.powered!.aboveV });

  const resistance = (label: string, a: NodeId, b: NodeId, ohms: Ranged | undefined) => {
    if (ohms === undefined) out.joins.push([a, b]);
    else out.elements.push({ kind: 'resistance', id: label, a, b, ohms });
  };
  const source = (label: string, plus: NodeId, volts: Ranged) =>
    out.elements.push({ kind: 'voltage', id: label, plus, minus: ground, volts });
  const rail = (volts: Ranged): NodeId => {
    if (!powered) return ground;
    const key = `${volts.low} ${volts.nominal} ${volts.high}`;
    const before = rails.get(key);
    if (before !== undefined) return before;
    const node = around.fresh();
    rails.set(key, node);
    const twin = [...rails].length > 1 ? ` (${rails.size})` : '';
    source(`${id} ${formatQuantity(volts.nominal, 'voltage')} rail${twin}`, node, volts);
    return node;
  };

  for (const pin of data.pins.values()) {
    const at = around.node(pin.id);
    if (at === undefined || !existsIn(pin, around.variant)) continue;
    const name = `${id}.${pin.id}`;
    if (pin.draws) resistance(`${name} draw`, at, ground, pin.draws);
    if (pin.pullUp) resistance(`${name} pull-up`, rail(pin.pullUp.toV), at, pin.pullUp.throughOhms);
    if (pin.pullDownOhms) resistance(`${name} pull-down`, at, ground, pin.pullDownOhms);
    if (pin.output === 'supply' && powered) {
      const inside = pin.onOhms ? around.fresh() : at;
      source(`${name} output`, inside, pin.supplyV ?? exact(5));
      if (pin.onOhms) resistance(`${name} output resistance`, inside, at, pin.onOhms);
    }
    const driven = driverEnd(pin, ground, around);
    if (driven === undefined) continue;
    if (around.isOn(name)) resistance(`${name} driver`, at, driven, pin.onOhms);
    else if (pin.offLeakageA && pin.offLeakageA.high > 0) {
      const [a, b] = pin.output === 'low side' ? [at, driven] : [driven, at];
      out.bends.push({ id: `${name} leakage`, a, b, segments: leakageSegments(pin.offLeakageA) });
    }
  }
  return out;
}

function driverEnd(pin: Pin, ground: NodeId, around: Surroundings): NodeId | undefined {
  if (pin.output === 'low side') return ground;
  return pin.output === 'high side' && pin.feed ? around.node(pin.feed.text) : undefined;
}
