import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { limitAround } from '../../server/src/analysis/limit-around.ts';
import { limitsOf, limitsOfRow } from '../../server/src/analysis/limits.ts';
import { displayed } from '../../server/src/analysis/meter-display.ts';
import { formatLimit } from '../../server/src/base/quantity/limit.ts';
import { handheldMeter } from '../../server/src/model/meter.ts';
import { stepIn } from '../../server/src/model/step.ts';
import { procedureOf, systemOf } from './support.ts';

/** Two resistors across a supply, the second one behind a plug; one variant has half of the first. */
const divider = `format: 1
system: divider
variants: { plain: One, light: Two }
conditions: { key: [off, run] }
parts:
  G1: { kind: supply, voltage: 10 V ± 1 % }
  S1: { kind: switch, closed: { key: run } }
  R1: { kind: resistor, resistance: 1 kΩ ± 5 %, by variant: { light: { resistance: 500 Ω ± 5 % } } }
  R2: { kind: resistor, resistance: 1 kΩ ± 5 % }
  A1:
    kind: module
    ground: 2
    pins:
      1: { name: sense }
      2: { name: ground }
    scan data:
      tap: { from: 1, shows: voltage }
      oil: { follows: key }
wires:
  - W1: G1.+ to S1.1
  - W2: S1.2 to R1.1
  - W3: R1.2 to R2.1
  - W4: R2.2 to G1.-
  - W5: R2.1 to A1.1
  - W6: A1.2 to G1.-
specifications:
  tap:
    measure: voltage
    red: R2.1
    black: R2.2
    rows:
      on: { set: { key: run }, limits: from the circuit }
      off: { limits: below 0.1 V }
  second:
    measure: resistance
    red: R2.1 (part side)
    black: R2.2 (part side)
    disconnect: [R2]
    rows:
      cold: { limits: from the circuit }
      light only: { only: light, limits: from the circuit }
  cut:
    measure: voltage
    red: R2.1 (part side)
    black: R2.2
    disconnect: [R2]
    rows: { off: { limits: from the circuit } }
`;

/** What is known of the limits of the step \`look\`, in words; lines are those of the step. */
function limitsAt(step: string, variant = 'plain', more = ''): string {
  const view = procedureOf(
    divider,
    `format: 1
procedure: look
applies to: { some.system.yaml: all }
starts from: [{ symptom: dark }]
start: look
steps:
  look: { ${step}, then: { within: good, otherwise: bad } }
${more}endings:
  good: { no fault: Good }
  bad: { refer: Bad }
`.replace('start: look', more === '' ? 'start: look' : 'start: first'),
  );
  const one = view.cases.find(each => each.variant === variant)!;
  const limits = limitsOf(stepIn(view.procedure.steps.get('look')!, variant), one);
  return limits.state === 'known' ? formatLimit(limits.limit) : limits.state === 'none' ? 'none' : limits.why;
}

function rowLimits(table: string, row: string, variant = 'plain'): string {
  const view = systemOf(divider);
  const of = view.system.specifications.get(table)!;
  const limits = limitsOfRow(of, of.rows.get(row)!, view.circuit(variant));
  return limits.state === 'known' ? formatLimit(limits.limit) : limits.state === 'none' ? 'none' : limits.why;
}

const tap = 'set: { key: run }, measure: voltage, red: R2.1, black: R2.2';

/*
 * Worst cases of the divider by hand, the voltmeter of 10 MΩ beside R2, whose ends are 949.910 Ω and 1049.890 Ω with it:
 *   lowest  9.9 V · 949.910 / (1050 + 949.910) = 4.70227 V,  highest 10.1 V · 1049.890 / (950 + 1049.890) = 5.30223 V.
 * The meter is off by 0.5 % and 2 steps of 1 mV (`model/meter.ts`): 25.51 mV at the lower end and 28.51 mV at the higher one.
 */
describe('limits from the circuit', () => {
  it('are its worst cases with what the meter may be off, out to the next step of the display', () => {
    // 4.70227 V - 25.51 mV = 4.67676 V; 5.30223 V + 28.51 mV = 5.33074 V.
    expect(limitsAt(`${tap}, limits: from the circuit`)).toBe('4.676 V .. 5.331 V');
  });

  it('are wider by the margin, a share of each end', () => {
    // 4.70227 V · 0.98 - 25.51 mV = 4.58271 V; 5.30223 V · 1.02 + 28.51 mV = 5.43679 V.
    expect(limitsAt(`${tap}, limits: "from the circuit, with 2 % margin"`)).toBe('4.582 V .. 5.437 V');
  });

  it('are the same below zero, where the margin goes away from zero at the lower end', () => {
    const swapped = 'set: { key: run }, measure: voltage, red: R2.2, black: R2.1';
    expect(limitsAt(`${swapped}, limits: from the circuit`)).toBe('-5.331 V .. -4.676 V');
    expect(limitsAt(`${swapped}, limits: "from the circuit, with 2 % margin"`)).toBe('-5.437 V .. -4.582 V');
  });

  it('are those of each variant', () => {
    // With 500 Ω: 9.9 · 949.910 / (525 + 949.910) = 6.37609 V and 10.1 · 1049.890 / (475 + 1049.890) = 6.95387 V. From 6 V on the meter
    // has steps of 10 mV: 6.37609 V - 31.88 mV - 20 mV = 6.32421 V; 6.95387 V + 34.77 mV + 20 mV = 7.00864 V.
    expect(limitsAt(`${tap}, limits: from the circuit`, 'light')).toBe('6.32 V .. 7.01 V');
    const apart = `${tap}, limits: 4 V .. 6 V, by variant: { light: { limits: from the circuit } }`;
    expect([limitsAt(apart), limitsAt(apart, 'light')]).toEqual(['4 V .. 6 V', '6.32 V .. 7.01 V']);
  });

  it('go by the meter of the procedure, and by none for scan data', () => {
    const read = 'set: { key: run }, read: A1 tap, limits: from the circuit';
    // Without a voltmeter: 9.9 V · 950 / 2000 = 4.7025 V; 10.1 V · 1050 / 2000 = 5.3025 V.
    expect(limitsAt(read)).toBe('4.702 V .. 5.303 V');
  });

  it('hold every situation that leads to the step', () => {
    const either = `  first: { ask: Is the key at run?, then: { yes: turn, no: look } }
  turn: { do: Turn the key, set: { key: run }, then: look }
`;
    // With the key off nothing flows; 2 steps of 1 mV below zero.
    const limits = 'measure: voltage, red: R2.1, black: R2.2, limits: from the circuit';
    expect(limitsAt(limits, 'plain', either)).toBe('-2 mV .. 5.331 V');
  });

  it('are no lower than zero ohms, and hold the test leads', () => {
    // R2 by itself: 950 Ω .. 1050 Ω and 0.2 Ω of leads; 0.8 % and 2 steps of 1 Ω: 940.4 Ω and 1060.6 Ω.
    expect(rowLimits('second', 'cold')).toBe('940 Ω .. 1.061 kΩ');
    // A joint without resistance: up to 0.2 Ω of leads and 0.8 % and 2 steps of 0.1 Ω of it.
    expect(formatLimit(limitAround([{ low: 0, high: 0.2 }], 0, 'resistance', handheldMeter))).toBe('0 Ω .. 500 mΩ');
  });

  it('let `OL` pass where a good machine may be beyond the meter', () => {
    const limit = limitAround([{ low: 50e6, high: 59.9e6 }], 0.05, 'resistance', handheldMeter);
    // 50 MΩ · 0.95 - 0.4 MΩ - 20 kΩ = 47.08 MΩ, in steps of 10 kΩ.
    expect([formatLimit(limit), limit.overLimit]).toEqual(['at least 47.08 MΩ', true]);
  });

  it('hold whatever a meter within its accuracy shows of a good machine', () => {
    const kinds = fc.constantFrom('voltage' as const, 'resistance' as const, 'current' as const);
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    const size = fc.double({ min: -3, max: 5, noNaN: true }).map(power => 10 ** power);
    fc.assert(
      fc.property(kinds, size, share, share, fc.boolean(), share, (dimension, end, width, where, isBelow, off) => {
        const sign = isBelow && dimension !== 'resistance' ? -1 : 1;
        const [low, high] = [end * (1 - width), end].map(value => value * sign).toSorted((a, b) => a - b) as [
          number,
          number,
        ];
        const limit = limitAround([{ low, high }], 0, dimension, handheldMeter);
        // A data sheet's accuracy, as `displayed` has it: the display is off by no more than this.
        const truth = low + where * (high - low);
        const { error, resolution } = displayed(truth, dimension, handheldMeter);
        const steps = (truth + (2 * off - 1) * error) / resolution;
        const rounded = (off < 0.5 ? Math.ceil(steps) : Math.floor(steps)) * resolution;
        const seen = dimension === 'resistance' ? Math.max(0, rounded) : rounded;
        expect(seen).toBeGreaterThanOrEqual(limit.low - 1e-9 * end);
        expect(seen).toBeLessThanOrEqual(limit.high + 1e-9 * end);
      }),
      { numRuns: 2000 },
    );
  });

  it('count the meter where a higher range begins', () => {
    // 5.99 V - 29.95 mV - 2 mV = 5.958 V, but of 6 V the meter may show 6 V - 30 mV - 20 mV = 5.95 V.
    expect(formatLimit(limitAround([{ low: 5.99, high: 6.01 }], 0, 'voltage', handheldMeter))).toBe('5.95 V .. 6.07 V');
  });

  it('are those of the row that the step names', () => {
    expect(limitsAt(`${tap}, specification: tap/on`)).toBe('4.676 V .. 5.331 V');
    expect(limitsAt(`${tap}, specification: tap/off`)).toBe('below 100 mV');
    expect(limitsAt(`${tap}, specification: tap/none`)).toBe('none');
    expect([rowLimits('tap', 'on'), rowLimits('tap', 'on', 'light')]).toEqual([
      '4.676 V .. 5.331 V',
      '6.32 V .. 7.01 V',
    ]);
  });

  it.each([
    [
      'disconnect: [R2], measure: resistance, red: R1.1, black: A1.2 (back-probe), limits: from the circuit',
      'The circuit gives OL: no path joins the leads',
    ],
    [
      'set: { key: run }, measure: resistance, red: R2.1, black: R2.2, limits: from the circuit',
      'The circuit gives no number: G1 drives current between the leads; resistance is measured on a dead circuit',
    ],
    [
      'disconnect: [R2], measure: voltage, red: R2.1 (part side), black: R2.2 (harness side), limits: from the circuit',
      'The circuit gives no number: the red lead touches nothing that is tied down',
    ],
    ['measure: test lamp, red: R2.1, black: R2.2, limits: from the circuit', 'A test lamp shows no number'],
    ['read: A1 oil, limits: from the circuit', 'The circuit gives a number only to scan data that come from a pin'],
    [
      'needs: { key: run }, measure: voltage, red: R2.1, black: R2.2, limits: from the circuit',
      'No path leads to this step',
    ],
    [`${tap}, specification: second/light only`, '`second/light only` does not exist in variant `plain`'],
  ])('are not known at { %s }', (step, why) => {
    expect(limitsAt(step)).toContain(why);
  });

  it('are not known where one path gives a number and another one none', () => {
    const either = `  first: { ask: Is the plug off?, then: { yes: unplug, no: look } }
  unplug: { do: Unplug R2, disconnect: [R2], then: look }
`;
    // R1 and R2 in line, 1900 Ω .. 2100 Ω and 0.2 Ω of leads; nothing at all with the plug off.
    const limits = 'measure: resistance, red: R1.1, black: A1.2 (back-probe), limits: from the circuit';
    expect(limitsAt(limits, 'plain', either)).toBe(
      'The circuit gives 1.9 kΩ .. 2.11 kΩ on one path to the step and OL on another',
    );
  });

  it('follow a change of the machine', () => {
    const rows = (text: string) => {
      const view = systemOf(text);
      const table = view.system.specifications.get('tap')!;
      const limits = limitsOfRow(table, table.rows.get('on')!, view.circuit('plain'));
      return limits.state === 'known' && formatLimit(limits.limit);
    };
    // 20 V: all twice as high, 9.40454 V - 47.02 mV - 20 mV and 10.60446 V + 53.02 mV + 20 mV in steps of 10 mV.
    expect(rows(divider.replace('10 V ± 1 %', '20 V ± 1 %'))).toBe('9.33 V .. 10.68 V');
  });
});
