import { describe, expect, it } from 'vitest';
import { faultsOf } from '../../server/src/analysis/faults/derive.ts';
import { effectOf } from '../../server/src/analysis/faults/effect-of.ts';
import { handheldMeter } from '../../server/src/model/meter.ts';
import type { MeterPlace } from '../../server/src/model/step.ts';
import { lead, number, systemOf } from '../analysis/support.ts';

/**
 * What a textbook says in words about faults of direct-current circuits: US Department of Energy, DOE-HDBK-1011/1-92, Fundamentals
 * Handbook: Electrical Science, module 2, pp. 66-69, "DC circuit faults". The circuits are three lamps' worth of resistors.
 */
const ends = ['1', '2', '3'];
const parts = ends.map(n => `  R${n}: { kind: resistor, resistance: ${n}0 Ω }`).join('\n');
const system = (wires: string) =>
  systemOf(`
format: 1
system: book
parts:
  G1: { kind: supply, voltage: 12 V, internal resistance: 0.05 Ω }
${parts}
grounds: { GND-1: Frame }
wires:
  - W1: G1.- to GND-1
${wires}
`);
const series = system('  - W2: G1.+ to R1.1\n  - W3: R1.2 to R2.1\n  - W4: R2.2 to R3.1\n  - W5: R3.2 to GND-1');
const parallel = system(ends.map(n => `  - W${n}1: G1.+ to R${n}.1\n  - W${n}2: R${n}.2 to GND-1`).join('\n'));

const place = { uri: '', span: { unit: { text: '' }, start: 0, end: 0 } };
const shows = (view: typeof series, fault: string | undefined, at: MeterPlace) => {
  const circuit = view.circuit('standard');
  const found = faultsOf(view.system, 'standard').find(({ id }) => id === fault);
  if (fault && !found) throw new Error(`there is no fault ${fault}`);
  return number(circuit.read(at, handheldMeter, circuit.rest, found && effectOf(found))).nominal;
};
const over = (part: string): MeterPlace => ({
  measure: 'voltage',
  measurePlace: place,
  red: lead(`${part}.1`),
  black: lead(`${part}.2`),
});
const around = (name: string): MeterPlace => ({
  measure: 'current',
  measurePlace: place,
  around: { text: name, place },
});

describe('an open in a series circuit', () => {
  it('stops the current, takes the drops from the loads and has all of the supply over itself', () => {
    expect(shows(series, undefined, around('G1'))).toBeCloseTo(12 / 60.05, 9);
    // What is left is the current of the voltmeter itself.
    expect(shows(series, 'R2 open', around('G1'))).toBeCloseTo(0, 9);
    for (const load of ['R1', 'R3']) expect(shows(series, 'R2 open', over(load))).toBeCloseTo(0, 6);
    expect(shows(series, 'R2 open', over('R2'))).toBeCloseTo(12, 3);
  });
});

describe('an open in one branch of a parallel circuit', () => {
  it('leaves the other branches as they are, and lowers the current of all', () => {
    const before = shows(parallel, undefined, around('G1'));
    expect(shows(parallel, 'R1 open', around('G1'))).toBeLessThan(before);
    for (const load of ['R2', 'R3']) {
      expect(shows(parallel, 'R1 open', around(load)) / shows(parallel, undefined, around(load))).toBeCloseTo(1, 1);
    }
  });
});

describe('a short', () => {
  it('in a series circuit raises the current, and takes the drop from what is shorted', () => {
    expect(shows(series, 'R3 shorted', around('G1'))).toBeGreaterThan(1.9 * shows(series, undefined, around('G1')));
    expect(shows(series, 'R3 shorted', over('R3'))).toBeLessThan(0.1);
    expect(shows(series, 'R3 shorted', over('R1'))).toBeGreaterThan(shows(series, undefined, over('R1')));
  });

  it('in one branch of a parallel circuit makes a very large current, and starves the others', () => {
    expect(shows(parallel, 'R1 shorted', around('G1'))).toBeGreaterThan(30 * shows(parallel, undefined, around('G1')));
    expect(shows(parallel, 'R1 shorted', over('R2'))).toBeLessThan(0.7 * shows(parallel, undefined, over('R2')));
  });
});
