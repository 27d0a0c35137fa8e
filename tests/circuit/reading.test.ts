import { describe, expect, it } from 'vitest';
import { exact, within } from '../../server/src/base/ranged.ts';
import { influences, type NumberReading, read } from '../../server/src/circuit/reading.ts';
import { type Line, netlist } from '../support/circuits.ts';

const open = Number.POSITIVE_INFINITY;
const ohmmeter = { measure: 'resistance', leadsOhms: exact(0), overLimitOhms: 60e6 } as const;

function number(reading: ReturnType<typeof read>): NumberReading {
  if (reading.state !== 'number') throw new Error(`no number but ${JSON.stringify(reading)}`);
  return reading;
}

describe('a resistor-coded group on one wire (common practice, no source)', () => {
  // Idle path 22.6 kohm, a button adds 680 ohm to ground, another shorts the wire to ground; pull-up to 5 V.
  const group = (button: Line[]) =>
    netlist([
      ['V1', '5V', 'ground', within(5, 0.02)],
      ['R1', '5V', 'sense', within(4_700, 0.01)],
      ['R2', 'sense', 'ground', within(22_600, 0.05)],
      ...button,
    ]);
  const sense = ({ network, node }: ReturnType<typeof group>) =>
    number(read(network, { measure: 'voltage', red: node('sense'), black: node('ground'), inputOhms: open }));

  it('idles at 22.6 / (22.6 + 4.7) of the pull-up', () => {
    const idle = sense(group([]));
    expect(idle.nominal).toBeCloseTo((5 * 22_600) / 27_300, 12);
    expect(idle.low).toBeCloseTo((4.9 * 21_470) / (21_470 + 4_747), 12);
    expect(idle.high).toBeCloseTo((5.1 * 23_730) / (23_730 + 4_653), 12);
    expect(idle.exact).toBe(true);
    expect(idle.lowAt).toEqual([
      { id: 'V1', kind: 'voltage', value: 4.9, end: 'low' },
      { id: 'R2', kind: 'resistance', value: 21_470, end: 'low' },
      { id: 'R1', kind: 'resistance', value: 4_747, end: 'high' },
    ]);
  });

  it('shows the button beside the idle path, and the short as nothing', () => {
    const parallel = (22_600 * 680) / 23_280;
    expect(sense(group([['R3', 'sense', 'ground', 680]])).nominal).toBeCloseTo((5 * parallel) / (parallel + 4_700), 12);
    expect(sense(group([['J', 'sense', 'ground']]))).toMatchObject({ low: 0, nominal: 0, high: 0, exact: true });
  });

  it('reads 6.23 kohm, and with a button 3.3 kohm in parallel with it', () => {
    const ohms = (lines: Line[]) => {
      const { network, node } = netlist(lines);
      return number(read(network, { ...ohmmeter, red: node('a'), black: node('b') })).nominal;
    };
    expect(ohms([['R1', 'a', 'b', 6_230]])).toBe(6_230);
    expect(
      ohms([
        ['R1', 'a', 'b', 6_230],
        ['R2', 'a', 'b', 3_300],
      ]),
    ).toBeCloseTo((6_230 * 3_300) / 9_530, 9);
  });
});

describe('resistance', () => {
  const { network, node } = netlist([
    ['V1', 'battery', 'ground', 12.6],
    ['R1', 'battery', 'a', within(10, 0.1)],
    ['R2', 'a', 'b', within(100, 0.05)],
    ['R3', 'b', 'ground', within(20, 0.1)],
    ['I1', 'b', 'a', 0.3],
    ['R4', 'lonely', 'other', within(90e6, 0.5)],
  ]);

  it('counts the path through the rest of the network, its sources dead, and the leads', () => {
    const reading = number(
      read(network, {
        ...ohmmeter,
        leadsOhms: { low: 0.1, nominal: 0.2, high: 0.3 },
        red: node('a'),
        black: node('b'),
      }),
    );
    const parallel = (r: number, s: number) => (r * s) / (r + s);
    expect(reading.nominal).toBeCloseTo(parallel(100, 30) + 0.2, 12);
    expect(reading.low).toBeCloseTo(parallel(95, 27) + 0.1, 12);
    expect(reading.high).toBeCloseTo(parallel(105, 33) + 0.3, 12);
    expect(reading.exact).toBe(true);
    expect(reading.lowAt.map(({ id, end }) => [id, end])).toEqual([
      ['R3', 'low'],
      ['R1', 'low'],
      ['R2', 'low'],
    ]);
  });

  it('is OL without a path, and above what the meter can show at its lowest', () => {
    expect(read(network, { ...ohmmeter, red: node('a'), black: node('lonely') })).toEqual({
      state: 'over-limit',
      why: 'no path',
    });
    expect(read(network, { ...ohmmeter, overLimitOhms: 40e6, red: node('lonely'), black: node('other') })).toEqual({
      state: 'over-limit',
      why: 'above range',
    });
    expect(
      read(network, { ...ohmmeter, overLimitOhms: 50e6, red: node('lonely'), black: node('other') }),
    ).toMatchObject({ low: 45e6 });
  });

  it('is the leads alone on one node', () => {
    expect(read(network, { ...ohmmeter, leadsOhms: exact(0.2), red: node('a'), black: node('a') })).toMatchObject({
      nominal: 0.2,
    });
  });
});

describe('voltage', () => {
  const { network, node } = netlist([
    ['V1', 'battery', 'ground', 12.6],
    ['R1', 'battery', 'dangling', 1e6],
    ['R2', 'lonely', 'other', 100],
    ['V2', 'island', 'shore', 9],
    ['R3', 'island', 'shore', 1000],
  ]);
  const shown = (red: string, black: string, inputOhms: number) =>
    read(network, { measure: 'voltage', red: node(red), black: node(black), inputOhms });

  it('is pulled down by the meter itself', () => {
    expect(number(shown('dangling', 'ground', 10e6)).nominal).toBeCloseTo((12.6 * 10) / 11, 12);
    expect(number(shown('dangling', 'ground', open)).nominal).toBeCloseTo(12.6, 12);
    expect(number(shown('ground', 'dangling', open)).nominal).toBeCloseTo(-12.6, 12);
  });

  it.each([
    ['lonely', 'ground', 'red'],
    ['battery', 'lonely', 'black'],
    ['island', 'ground', 'both'],
  ])('floats between %s and %s: %s', (red, black, lead) => {
    for (const inputOhms of [10e6, open]) expect(shown(red, black, inputOhms)).toEqual({ state: 'floating', lead });
  });

  it('is nothing between two points of a dead island', () => {
    expect(shown('lonely', 'other', 10e6)).toMatchObject({ state: 'number', low: 0, high: 0 });
    expect(
      influences(network, { measure: 'voltage', red: node('lonely'), black: node('other'), inputOhms: open }),
    ).toEqual([]);
  });
});

describe('current', () => {
  const { network, node } = netlist([
    ['V1', 'battery', 'ground', { low: 12, nominal: 12.6, high: 14.4 }],
    ['R1', 'battery', 'feed', within(0.1, 0.2)],
    ['R2', 'return', 'ground', within(6, 0.1)],
    ['R3', 'feed', 'ground', 1e3],
  ]);
  const shown = (red: string, black: string, burdenOhms: number) =>
    read(network, { measure: 'current', red: node(red), black: node(black), burdenOhms });

  it('goes through the meter that joins the branch, burden included', () => {
    const amps = (volts: number, r1: number, r2: number, burden: number) => {
      const branch = r2 + burden;
      const all = r1 + (1e3 * branch) / (1e3 + branch);
      return ((volts / all) * 1e3) / (1e3 + branch);
    };
    const ideal = number(shown('feed', 'return', 0));
    expect(ideal.nominal).toBeCloseTo(amps(12.6, 0.1, 6, 0), 12);
    expect(ideal.low).toBeCloseTo(amps(12, 0.12, 6.6, 0), 12);
    expect(ideal.high).toBeCloseTo(amps(14.4, 0.08, 5.4, 0), 12);
    expect(number(shown('return', 'feed', 0.5)).nominal).toBeCloseTo(-amps(12.6, 0.1, 6, 0.5), 12);
    expect(ideal.highAt[0]).toEqual({ id: 'R2', kind: 'resistance', value: 5.4, end: 'low' });
  });

  it('cannot be read with an ideal meter across a source, or across a wire', () => {
    expect(shown('battery', 'ground', 0)).toEqual({
      state: 'unsolvable',
      problems: [{ kind: 'meter-across-source', elements: ['V1'] }],
    });
    expect(shown('feed', 'feed', 0)).toEqual({
      state: 'unsolvable',
      problems: [{ kind: 'meter-shorted', elements: [] }],
    });
    expect(number(shown('battery', 'ground', 0.01)).nominal).toBeCloseTo(1260, 9);
  });

  it('can be clamped on any element, with the direction of the element', () => {
    const total = number(read(network, { measure: 'clamp', element: 'R1' }));
    expect(total.nominal).toBeCloseTo(12.6 / 1000.1, 12);
    expect(number(read(network, { measure: 'clamp', element: 'V1' })).nominal).toBeCloseTo(12.6 / 1000.1, 12);
    expect(number(read(network, { measure: 'clamp', element: 'R2' }))).toMatchObject({ low: 0, high: 0 });
  });
});

describe('resistances that may be nothing at all', () => {
  it('in line with others need no care', () => {
    const { network, node } = netlist([
      ['V1', 'a', '0', 10],
      ['R1', 'a', 'b', { low: 0, nominal: 0.5, high: 1 }],
      ['R2', 'b', '0', 9],
    ]);
    const reading = number(read(network, { measure: 'voltage', red: node('b'), black: node('0'), inputOhms: open }));
    expect(reading).toMatchObject({ low: 9, high: 10, exact: true, highAt: [{ id: 'R1', value: 0, end: 'low' }] });
  });

  const bridge = (bond: { low: number; nominal: number; high: number }) =>
    netlist([
      ['V1', 'a', '0', 10],
      ['R1', 'a', 'b', 1],
      ['R2', 'b', '0', 3],
      ['R3', 'a', 'c', 2],
      ['R4', 'c', '0', 2],
      ['R5', 'b', 'c', bond],
    ]);

  it('in a bridge are read as the connection that they then are', () => {
    const { network, node } = bridge({ low: 0, nominal: 0, high: 4 });
    const reading = number(read(network, { measure: 'voltage', red: node('b'), black: node('c'), inputOhms: open }));
    const unbridged = number(
      read(bridge(exact(4)).network, { measure: 'voltage', red: node('b'), black: node('c'), inputOhms: open }),
    );
    expect(reading).toMatchObject({ low: 0, nominal: 0, exact: true, lowAt: [{ id: 'R5', value: 0, end: 'low' }] });
    expect(reading.high).toBeCloseTo(unbridged.nominal, 12);
    const clamp = number(read(network, { measure: 'clamp', element: 'R5' }));
    // With b and c joined, 10 V stand over (1 || 2) + (3 || 2): R1 takes 2/3 of the current, R2 2/5 of it, R5 the rest.
    expect(clamp.high).toBeCloseTo((10 / (2 / 3 + 6 / 5)) * (2 / 3 - 2 / 5), 12);
  });

  it('that would short a source are reported with it', () => {
    const { network } = netlist([
      ['V1', 'a', '0', 10],
      ['R1', 'a', '0', { low: 0, nominal: 1, high: 2 }],
    ]);
    expect(read(network, { measure: 'clamp', element: 'V1' })).toMatchObject({ state: 'unsolvable' });
  });
});

describe('what a reading depends on', () => {
  const { network, node } = netlist([
    ['V1', 'battery', 'ground', 12],
    ['R1', 'battery', 'bus', 0.01],
    ['R2', 'bus', 'lamp', 0.1],
    ['R3', 'lamp', 'ground', 5],
    ['R4', 'bus', 'ground', 8],
    ['R5', 'lamp', 'probe', 0.2],
    ['V2', 'x', 'ground', 5],
    ['R6', 'x', 'ground', 100],
  ]);

  it('is the supply, the path and what loads it, not what hangs on it or stands elsewhere', () => {
    const measurement = { measure: 'voltage', red: node('probe'), black: node('ground') } as const;
    expect(influences(network, { ...measurement, inputOhms: open })).toEqual(['V1', 'R1', 'R2', 'R3', 'R4']);
    expect(influences(network, { ...measurement, inputOhms: 10e6 })).toEqual(['V1', 'R1', 'R2', 'R3', 'R4', 'R5']);
  });

  it('is nothing but the source across an ideal source, and the path alone for ohms', () => {
    expect(influences(network, { measure: 'voltage', red: node('x'), black: node('ground'), inputOhms: open })).toEqual(
      ['V2'],
    );
    expect(influences(network, { ...ohmmeter, red: node('lamp'), black: node('bus') })).toEqual([
      'R1',
      'R2',
      'R3',
      'R4',
    ]);
  });
});
