import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { faultsOf } from '../../server/src/analysis/faults/derive.ts';
import { effectOf } from '../../server/src/analysis/faults/effect-of.ts';
import { lower } from '../../server/src/analysis/lower/network.ts';
import { wire } from '../../server/src/analysis/lower/wiring.ts';
import { type Situation, situation } from '../../server/src/analysis/situation.ts';
import { ownStates, partIn } from '../../server/src/model/parts.ts';
import { systemOf } from '../analysis/support.ts';

const files = ['loader/loader-aux', 'workboat/bilge', 'generator/genset'];
const cases = files.flatMap(file => {
  const view = systemOf(readFileSync(new URL(`../../examples/${file}.system.yaml`, import.meta.url), 'utf8'));
  return view.system.variants.map(variant => [`${file} ${variant}`, view, variant] as const);
});

describe.each(cases)('%s', (_, view, variant) => {
  const { system } = view;
  const faults = faultsOf(system, variant);
  const wiring = wire(system, variant);

  it('has each fault once, of something there is', () => {
    expect(new Set(faults.map(f => f.id)).size).toBe(faults.length);
    const things = new Set([
      ...[system.parts, system.connectors, system.grounds, system.splices].flatMap(map => [...map.keys()]),
      ...system.wires.map(w => w.id),
      ...wiring.terminals.keys(),
      ...wiring.cavities.keys(),
    ]);
    for (const { id, owner, mendedBy } of faults) {
      expect(mendedBy[0], id).toBe(owner);
      for (const name of mendedBy) expect(things.has(name), `${id} is mended by ${name}`).toBe(true);
    }
  });

  it('says of each how likely it is, and where that is from', () => {
    for (const { id, likelihood, likelihoodSource, extent } of faults) {
      expect(likelihood, id).toBeGreaterThan(0);
      expect(likelihoodSource, id).toMatch(/MIL-HDBK-338B|common practice, no source|this file/);
      if (extent) expect(extent.source, id).not.toBe('');
    }
  });

  it('changes the network by each that is electrical, and by no other', () => {
    const situations = [...nearRest(view, variant)];
    const networks = situations.flatMap(now => [true, false].map(on => lower(wiring, now, () => on)));
    const asText = (lowered: (typeof networks)[number]) => JSON.stringify([lowered.network, lowered.senses]);
    const before = networks.map(asText);
    for (const fault of faults) {
      const effect = effectOf(fault);
      const changed = networks.some((lowered, i) => asText(effect.change(lowered)) !== before[i]);
      expect(changed || effect.fixed.size > 0, fault.id).toBe(fault.changes.length > 0);
      expect(fault.changes.length > 0, fault.id).toBe(system.parts.get(fault.owner)?.data.kind !== 'item');
    }
  });

  it('keeps the ids of elements unique', () => {
    const lowered = lower(wiring, view.circuit(variant).rest, () => true);
    for (const fault of faults) {
      const { network } = effectOf(fault).change(lowered);
      expect(new Set(network.elements.map(e => e.id)).size, fault.id).toBe(network.elements.length);
      expect(Math.max(...network.joins.flat()), fault.id).toBeLessThan(network.nodeCount);
    }
  });

  it('breaks nothing off that was not named: a broken wire leaves all others as they are', () => {
    const lowered = lower(wiring, view.circuit(variant).rest, () => true);
    for (const fault of faults.filter(f => f.kind === 'open' && system.wires.some(w => w.id === f.owner))) {
      const { network } = effectOf(fault).change(lowered);
      const ties = ({ elements, joins }: typeof network) => elements.length + joins.length;
      expect(ties(network), fault.id).toBe(ties(lowered.network) - 1);
    }
  });
});

function* nearRest(view: ReturnType<typeof systemOf>, variant: string): Generator<Situation> {
  const { rest } = view.circuit(variant);
  yield rest;
  const { conditions, parts } = view.system;
  const ways: [string, readonly string[]][] = [
    ...[...conditions.values()].map((c): [string, string[]] => [c.id, c.states.map(s => s.text)]),
    ...[...parts.values()].map((p): [string, readonly string[]] => [p.id, ownStates(partIn(p, variant))]),
  ];
  for (const [name, states] of ways) {
    for (const state of states.slice(1)) yield situation(new Map([...rest.states, [name, state]]), rest.apart);
  }
}
