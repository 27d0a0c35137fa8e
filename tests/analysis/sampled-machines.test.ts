import { describe, expect, it } from 'vitest';
import type { NumberReading } from '../../server/src/analysis/electrical.ts';
import { randomFrom } from '../support/random-network.ts';
import { ask, systemOf } from './support.ts';

/** A value as the file writes it: with its tolerance, or as one machine has it. */
interface Value {
  readonly nominal: number;
  readonly ratio: number;
  readonly unit: string;
}
type Values = Readonly<Record<string, Value>>;

const written = ({ nominal, ratio, unit }: Value) => `${nominal} ${unit} ± ${(100 * ratio).toFixed(3)} %`;
const asBuilt = ({ unit }: Value, value: number) => `${value.toPrecision(15)} ${unit}`;

/** Systems in which something switches; `v` gives the text of a value. */
const templates: Readonly<Record<string, (v: (name: string) => string) => string>> = {
  'a relay whose coil hangs on a series resistor': v => `
  G1: { kind: supply, voltage: ${v('G1')} }
  R1: { kind: resistor, resistance: ${v('R1')} }
  K1: { kind: relay, coil: ${v('K1 coil')}, pull-in: 7 V, drop-out: 2 V, contact resistance: 50 mΩ }
  R2: { kind: resistor, resistance: ${v('R2')} }
  R3: { kind: resistor, resistance: ${v('R3')} }
wires:
  - W1: G1.+ to R1.1
  - W2: R1.2 to K1.85
  - W3: K1.86 to GND-1
  - W4: G1.+ to K1.30
  - W5: K1.87 to R2.1
  - W6: R2.2 to R3.1
  - W7: R3.2 to GND-1
  - W8: G1.- to GND-1`,
  'a zener diode that clamps a divider': v => `
  G1: { kind: supply, voltage: ${v('G1')} }
  R1: { kind: resistor, resistance: ${v('R1')} }
  R2: { kind: resistor, resistance: ${v('R2')} }
  V1: { kind: zener, zener voltage: ${v('V1 drop')}, forward voltage: 0.7 V }
  R3: { kind: resistor, resistance: ${v('R3')} }
wires:
  - W1: G1.+ to R1.1
  - W2: R1.2 to R3.1
  - W3: R1.2 to V1.K
  - W4: V1.A to GND-1
  - W5: R1.2 to R2.1
  - W6: R2.2 to GND-1
  - W7: R3.2 to GND-1
  - W8: G1.- to GND-1`,
  'two diodes that feed one load, and a module that watches it': v => `
  G1: { kind: supply, voltage: ${v('G1')} }
  G2: { kind: supply, voltage: ${v('R1')}, internal resistance: 1 Ω }
  V1: { kind: diode, forward voltage: 0.7 V }
  V2: { kind: diode, forward voltage: 0.6 V }
  R2: { kind: resistor, resistance: ${v('R2')} }
  R3: { kind: resistor, resistance: ${v('R3')} }
  A1:
    kind: module
    pins: { 1: { name: watch }, 2: { name: dump, output: low side, on resistance: 5 Ω } }
    scan data: { load: { from: 1, states: { low: below 9 V, high: at least 9 V } } }
    rules: [{ when: { load: high }, do: { 2: on } }]
wires:
  - W1: G1.+ to V1.A
  - W2: G2.+ to V2.A
  - W3: V1.K to A1.1
  - W4: V2.K to A1.1
  - W5: V1.K to R3.1
  - W6: R3.2 to GND-1
  - W7: R2.2 to A1.2
  - W8: G1.- to GND-1
  - W9: G2.- to GND-1
  - W10: G1.+ to R2.1`,
};

const textOf = (template: string, v: (name: string) => string) =>
  `format: 1\nsystem: some\nparts:${templates[template]!(v).replace('\nwires:', '\ngrounds: { GND-1: { title: Frame } }\nwires:')}\n`;

const seed = 20_261_125;
const machines = 12;

describe.each(Object.keys(templates))('sampled machines: %s', { timeout: 120_000 }, template => {
  it(`read inside what is reported, 60 sets of tolerances from seed ${seed} on`, () => {
    let [numbers, split, exactOnes] = [0, 0, 0];
    for (let k = 0; k < 60; k++) {
      const random = randomFrom(seed + k);
      const value = (from: number, to: number, unit: string): Value => ({
        nominal: Number((from + random() * (to - from)).toPrecision(4)),
        ratio: 0.02 + 0.28 * random(),
        unit,
      });
      const isModule = template.includes('module');
      const values: Values = {
        G1: value(6, 14, 'V'),
        R1: isModule ? value(6, 14, 'V') : value(5, 60, 'Ω'),
        R2: value(20, 200, 'Ω'),
        R3: value(20, 200, 'Ω'),
        'K1 coil': value(60, 120, 'Ω'),
        'V1 drop': value(3, 8, 'V'),
      };
      const question = { measure: 'voltage', red: 'R3.1', black: 'GND-1' } as const;
      const reading = ask(systemOf(textOf(template, name => written(values[name]!))), question);
      if (reading.state !== 'number') continue;
      numbers++;
      if (reading.exact) exactOnes++;
      if (reading.lowAt.some(({ end }) => end === 'nominal')) split++;
      const slack = 1e-9 * Math.max(1, Math.abs(reading.high));
      for (let m = 0; m < machines; m++) {
        const built = (name: string) => {
          const { nominal, ratio } = values[name]!;
          const place = m < 4 ? Math.round(random()) : random();
          return asBuilt(values[name]!, nominal * (1 + ratioAt(ratio, place)));
        };
        const one = ask(systemOf(textOf(template, built)), question);
        expect(one.state).toBe('number');
        const { nominal: shown } = one as NumberReading;
        expect(shown, `seed ${seed + k}, machine ${m}`).toBeGreaterThanOrEqual(reading.low - slack);
        expect(shown, `seed ${seed + k}, machine ${m}`).toBeLessThanOrEqual(reading.high + slack);
      }
    }
    console.info(
      `${template}: ${numbers} of 60 a number, ${exactOnes} exact, ${split} with a tolerance cut at a change of state`,
    );
    expect(numbers).toBeGreaterThan(30);
  });
});

/** From the low end of a tolerance, as it is written, to the high one. */
function ratioAt(ratio: number, place: number): number {
  const asWritten = Number((100 * ratio).toFixed(3)) / 100;
  return asWritten * (2 * place - 1);
}
