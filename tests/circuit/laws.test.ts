import { describe, expect, it } from 'vitest';
import { exact, type Ranged } from '../../server/src/base/ranged.ts';
import { type Element, endsOf, type Network, rangeOf, withRange } from '../../server/src/circuit/network.ts';
import { type Measurement, type Reading, read } from '../../server/src/circuit/reading.ts';
import { type Solution, solve } from '../../server/src/circuit/solve.ts';
import { secondOpinion } from '../support/modified-nodal.ts';
import { randomFrom, randomMeasurement, randomNetwork } from '../support/random-network.ts';

const random = randomFrom(21);
const networks = Array.from({ length: 60 }, () => {
  const nodes = 4 + Math.floor(random() * 20);
  return randomNetwork(random, {
    nodes,
    extra: Math.floor(random() * nodes),
    voltageSources: 1 + Math.floor(random() * 3),
    currentSources: Math.floor(random() * 3),
    uncertain: 6,
    tolerance: 0.3,
    decades: 5,
  });
});

function solved(network: Network): Solution {
  const { value, problems } = solve(network);
  expect(problems).toEqual([]);
  return value!;
}

function across(element: Element, { voltages }: Solution): number {
  const [a, b] = endsOf(element);
  return voltages[a]! - voltages[b]!;
}

describe('the operating point', () => {
  it('lets as much current into every node as out of it', () => {
    for (const network of networks) {
      const { currents, residual } = solved(network);
      const sum = new Float64Array(network.nodeCount);
      const size = new Float64Array(network.nodeCount);
      for (const element of network.elements) {
        const amps = currents.get(element.id)!;
        const [a, b] = endsOf(element);
        sum[a]! -= amps;
        sum[b]! += amps;
        for (const end of [a, b]) size[end]! += Math.abs(amps);
      }
      sum.forEach((amps, node) => {
        expect(Math.abs(amps)).toBeLessThanOrEqual(1e-9 * size[node]! + 1e-14);
      });
      expect(residual).toBeLessThan(1e-9);
    }
  });

  it('takes up as much power as the sources deliver', () => {
    for (const network of networks) {
      const point = solved(network);
      const absorbed = network.elements.map(element => across(element, point) * point.currents.get(element.id)!);
      const turned = absorbed.reduce((sum, watts) => sum + Math.abs(watts), 0);
      expect(Math.abs(absorbed.reduce((sum, watts) => sum + watts, 0))).toBeLessThanOrEqual(1e-10 * turned);
    }
  });

  it('obeys each element', () => {
    for (const network of networks) {
      const point = solved(network);
      for (const element of network.elements) {
        const volts = across(element, point);
        const nominal = rangeOf(element).nominal;
        if (element.kind === 'resistance') expect(volts).toBeCloseTo(nominal * point.currents.get(element.id)!, 9);
        if (element.kind === 'voltage') expect(-volts).toBeCloseTo(nominal, 9);
        if (element.kind === 'current') expect(point.currents.get(element.id)).toBe(nominal);
      }
    }
  });

  it('is the sum of what each source does alone', () => {
    for (const network of networks) {
      const all = solved(network);
      const sources = network.elements.filter(element => element.kind !== 'resistance');
      const sum = new Float64Array(network.nodeCount);
      for (const alone of sources) {
        const elements = network.elements.map(element =>
          element.kind === 'resistance' || element === alone ? element : withRange(element, exact(0)),
        );
        const { voltages } = solved({ ...network, elements });
        voltages.forEach((volts, node) => {
          sum[node]! += volts - voltages[0]!;
        });
      }
      sum.forEach((volts, node) => {
        expect(volts).toBeCloseTo(all.voltages[node]! - all.voltages[0]!, 9);
      });
    }
  });

  it('is solved island by island, and says which node is where', () => {
    const one: Element[] = [
      { kind: 'voltage', id: 'V1', plus: 1, minus: 0, volts: exact(9) },
      { kind: 'resistance', id: 'R1', a: 1, b: 0, ohms: exact(3) },
    ];
    const two: Element[] = [
      { kind: 'current', id: 'I1', from: 2, to: 3, amps: exact(2) },
      { kind: 'resistance', id: 'R2', a: 2, b: 3, ohms: exact(5) },
    ];
    const { island, voltages, currents, condition } = solved({ nodeCount: 5, elements: [...one, ...two], joins: [] });
    expect([...island]).toEqual([0, 0, 1, 1, 2]);
    expect(voltages[3]! - voltages[2]!).toBeCloseTo(10, 12);
    expect(currents.get('V1')).toBeCloseTo(3, 12);
    expect(condition).toBeGreaterThanOrEqual(1);
  });

  it('takes a resistance that is nothing at its nominal value for a connection', () => {
    const may: Element = { kind: 'resistance', id: 'contact', a: 1, b: 2, ohms: { low: 0, nominal: 0, high: 1 } };
    const load: Element = { kind: 'resistance', id: 'load', a: 2, b: 0, ohms: { low: 10, nominal: 10, high: 10 } };
    const supply: Element = { kind: 'voltage', id: 'V', plus: 1, minus: 0, volts: { low: 12, nominal: 12, high: 12 } };
    const { value } = solve({ nodeCount: 3, elements: [may, load, supply], joins: [] });
    expect(value!.voltages[2]! - value!.voltages[0]!).toBeCloseTo(12, 12);
  });

  it('takes given values in place of the nominal ones, and refuses a source loop with names', () => {
    const network: Network = {
      nodeCount: 2,
      elements: [
        { kind: 'voltage', id: 'V1', plus: 1, minus: 0, volts: exact(9) },
        { kind: 'resistance', id: 'R1', a: 1, b: 0, ohms: exact(3) },
      ],
      joins: [],
    };
    expect(solve(network, new Map([['R1', 4.5]])).value!.currents.get('R1')).toBeCloseTo(2, 12);
    const twice = { ...network, elements: [...network.elements, { ...network.elements[0]!, id: 'V2' }] };
    expect(solve(twice)).toEqual({ value: undefined, problems: [{ kind: 'source-loop', elements: ['V1', 'V2'] }] });
  });
});

describe('a reading stays what it is', () => {
  const readings = networks.map(network => ({ network, measurement: randomMeasurement(random, network) }));

  it('when nodes are renamed and elements change places', () => {
    for (const { network, measurement } of readings) {
      const order = shuffled(network.nodeCount);
      const elements = shuffled(network.elements.length).map(at => renamed(network.elements[at]!, order));
      const moved = read({ ...network, elements }, renamedMeasurement(measurement, order));
      expectSame(moved, read(network, measurement));
    }
  });

  it('when a resistance is split into two in series or in parallel', () => {
    for (const { network, measurement } of readings) {
      if (measurement.measure === 'clamp') continue;
      const split = network.elements.flatMap((element, at): Element[] => {
        if (element.kind !== 'resistance' || at % 3 === 2) return [element];
        const middle = network.nodeCount + at;
        const part = (factor: number, id: string): Element => ({ ...element, id, ohms: scaled(element.ohms, factor) });
        if (at % 3 === 0) return [part(4, `${element.id}a`), part(4 / 3, `${element.id}b`)];
        return [
          { ...element, id: `${element.id}a`, b: middle, ohms: scaled(element.ohms, 0.25) },
          { ...element, id: `${element.id}b`, a: middle, ohms: scaled(element.ohms, 0.75) },
        ];
      });
      const nodeCount = network.nodeCount + network.elements.length;
      expectSame(read({ ...network, nodeCount, elements: split }, measurement), read(network, measurement));
    }
  });

  it('when nodes are drawn apart and joined again', () => {
    for (const { network, measurement } of readings) {
      const nodeCount = 2 * network.nodeCount;
      const order = Array.from({ length: network.nodeCount }, (_, node) => network.nodeCount + node);
      const elements = network.elements.map((element, at) => (at % 2 ? element : renamed(element, order)));
      const joins = order.map((apart, node) => [node, apart] as const);
      expectSame(read({ nodeCount, elements, joins }, measurement), read(network, measurement));
    }
  });
});

describe('resistances that may be nothing', () => {
  it('give the ends that all combinations give', () => {
    const dice = randomFrom(33);
    let compared = 0;
    for (let round = 0; round < 120; round++) {
      const plain = randomNetwork(dice, {
        nodes: 4 + Math.floor(dice() * 3),
        extra: 4,
        voltageSources: 1,
        currentSources: 0,
        uncertain: 3,
        tolerance: 0.5,
        decades: 2,
      });
      const elements = plain.elements.map((element, at) =>
        at < 2 ? withRange(element, { low: 0, nominal: 1, high: 5 }) : element,
      );
      const network = { ...plain, elements };
      const red = Math.floor(dice() * plain.nodeCount);
      const measurement: Measurement = { measure: 'voltage', red, black: (red + 1) % plain.nodeCount, inputOhms: 10e6 };
      const reading = read(network, measurement);
      if (reading.state !== 'number') continue;
      compared++;
      // The second opinion knows no ideal connection beside another one, so nothing is a little to it.
      const almost = (ohms: number) => (ohms === 0 ? 1e-7 : ohms);
      const all = combinations(network).map(at => {
        const values = new Map([...at].map(([id, value]) => [id, id.startsWith('R') ? almost(value) : value]));
        return secondOpinion(network, measurement, values);
      });
      expect(reading.exact).toBe(true);
      expect(reading.low).toBeCloseTo(Math.min(...all), 5);
      expect(reading.high).toBeCloseTo(Math.max(...all), 5);
    }
    expect(compared).toBeGreaterThan(80);
  });

  it('are bounded by the sources when there are too many to go through', () => {
    // A ladder of bonds between two rails, both fed: no bond is in series or parallel with another.
    const elements: Element[] = [{ kind: 'voltage', id: 'V1', plus: 0, minus: 1, volts: exact(12) }];
    const bond = { low: 0, nominal: 0.5, high: 1 };
    for (let rung = 0; rung < 9; rung++) {
      const [upper, lower] = [2 + 2 * rung, 3 + 2 * rung];
      elements.push({ kind: 'resistance', id: `RU${rung}`, a: rung ? upper - 2 : 0, b: upper, ohms: exact(1 + rung) });
      elements.push({ kind: 'resistance', id: `RL${rung}`, a: rung ? lower - 2 : 1, b: lower, ohms: exact(3) });
      elements.push({ kind: 'resistance', id: `RB${rung}`, a: upper, b: lower, ohms: bond });
      elements.push({ kind: 'resistance', id: `RX${rung}`, a: upper, b: 1, ohms: exact(20 + rung) });
    }
    const network = { nodeCount: 20, elements, joins: [] };
    const measurement = { measure: 'voltage', red: 12, black: 9, inputOhms: Number.POSITIVE_INFINITY } as const;
    const reading = read(network, measurement);
    expect(reading).toMatchObject({ state: 'number', exact: false });
    if (reading.state !== 'number') return;
    const dice = randomFrom(5);
    for (let sample = 0; sample < 200; sample++) {
      const at = new Map(elements.filter(({ id }) => id.startsWith('RB')).map(({ id }) => [id, dice()]));
      const shown = secondOpinion(network, measurement, at);
      expect(shown).toBeGreaterThanOrEqual(reading.low);
      expect(shown).toBeLessThanOrEqual(reading.high);
    }
  });
});

function shuffled(size: number): number[] {
  const order = Array.from({ length: size }, (_, at) => at);
  for (let at = size - 1; at > 0; at--) {
    const other = Math.floor(random() * (at + 1));
    [order[at], order[other]] = [order[other]!, order[at]!];
  }
  return order;
}

function renamed(element: Element, order: readonly number[]): Element {
  const to = (node: number) => order[node]!;
  switch (element.kind) {
    case 'resistance':
      return { ...element, a: to(element.a), b: to(element.b) };
    case 'voltage':
      return { ...element, plus: to(element.plus), minus: to(element.minus) };
    case 'current':
      return { ...element, from: to(element.from), to: to(element.to) };
  }
}

function renamedMeasurement(measurement: Measurement, order: readonly number[]): Measurement {
  if (measurement.measure === 'clamp') return measurement;
  return { ...measurement, red: order[measurement.red]!, black: order[measurement.black]! };
}

function scaled({ low, nominal, high }: Ranged, factor: number): Ranged {
  return { low: low * factor, nominal: nominal * factor, high: high * factor };
}

/** Same state, and numbers that agree to what rounding leaves of them. */
function expectSame(one: Reading, other: Reading): void {
  expect(one.state).toBe(other.state);
  if (one.state !== 'number' || other.state !== 'number') return;
  const scale = Math.max(Math.abs(other.low), Math.abs(other.high), 1e-6);
  for (const end of ['low', 'nominal', 'high'] as const) expect(one[end] / scale).toBeCloseTo(other[end] / scale, 8);
}

function combinations(network: Network): Map<string, number>[] {
  const open = network.elements.filter(element => rangeOf(element).low !== rangeOf(element).high);
  return Array.from({ length: 2 ** open.length }, (_, bits) => {
    return new Map(open.map((element, at) => [element.id, rangeOf(element)[(bits >> at) & 1 ? 'high' : 'low']]));
  });
}
