/** Machines that cannot be, or cannot be computed: each is told in words, and nothing runs on without an end. */
import { describe, expect, it } from 'vitest';
import { workspaceOf } from '../support/workspace.ts';
import { folder, survive } from './support.ts';

const lamp = `format: 1
system: s
parts:
  G1: { kind: battery, voltage: 12.6 V ± 0.4 V, internal resistance: 10 mΩ }
  E1: { kind: resistor, resistance: 10 Ω ± 5 % }
grounds:
  GND-1: {}
wires:
  - W1: G1.+ to E1.1
  - W2: E1.2 to GND-1
  - W3: G1.- to GND-1
`;

const procedure = `format: 1
procedure: p
applies to: { s.system.yaml: all }
starts from: [{ symptom: dark }]
start: volts
steps:
  volts:
    measure: voltage
    red: E1.1
    black: GND-1
    limits: 11 V .. 14 V
    then: { within: ok, otherwise: mend }
endings:
  ok: { no fault: All is well }
  mend: { refer: Ask the maker }
`;

const systemUri = `${folder}s.system.yaml`;
const procedureUri = `${folder}p.procedure.yaml`;

function told(system: string): string[] {
  const found = survive(
    new Map([
      [systemUri, system],
      [procedureUri, procedure],
    ]),
  );
  return found.map(({ rule }) => rule);
}

const withParts = (parts: string, wires = '') => lamp.replace('  E1:', `${parts}\n  E1:`) + wires;

describe('a system', () => {
  it('of the usual kind has no finding here', () => {
    expect(told(lamp)).toEqual([]);
  });

  it.each(['1e999 Ω', '-5 Ω', 'NaN Ω', '∞ Ω', 'OL', '10 Ω .. 5 Ω', '10 Ω ± 200 %', '0 Ω ± 5 %'])(
    'with a resistance that is none is told at the value, and its reading stays open: %s',
    value => {
      const found = told(lamp.replace('10 Ω ± 5 %', value));
      expect(found).toHaveLength(2);
      expect(found).toContain('reading-not-computed');
    },
  );

  it.each(['1e999 V', '12 V ± 300 %', 'twelve'])(
    'with a supply that cannot be read leaves readings open: %s',
    value => {
      const found = told(lamp.replace('12.6 V ± 0.4 V', value));
      expect(found).toHaveLength(2);
      expect(found).toContain('reading-not-computed');
    },
  );

  it.each(['0 Ω', '1e-300 Ω', '1e300 Ω', '99999999999999999999999 Ω'])('may have any resistance: %s', value => {
    for (const rule of told(lamp.replace('10 Ω ± 5 %', value)))
      expect(['limits-contradict-circuit', 'supply-shorted']).toContain(rule);
  });

  it('may short its supply, with an internal resistance or without', () => {
    const short = `${lamp}  - W9: G1.+ to GND-1\n`;
    expect(told(short)).toEqual(['limits-contradict-circuit', 'supply-shorted'].sort(bySystemFirst));
    expect(told(short.replace(', internal resistance: 10 mΩ', ''))).toContain('supply-shorted');
  });

  it('may tie two supplies of different voltage together', () => {
    const second = withParts(
      '  G2: { kind: battery, voltage: 24 V }',
      '  - W9: G2.+ to G1.+\n  - W10: G2.- to GND-1\n',
    );
    expect(told(second.replace(', internal resistance: 10 mΩ', ''))).toContain('supplies-tied-together');
    expect(told(second)).toEqual(['limits-contradict-circuit']);
  });

  it('may wire a part or a wire to itself', () => {
    expect(() => told(lamp.replace('E1.2 to GND-1', 'E1.2 to E1.1'))).not.toThrow();
    expect(() => told(`${lamp}  - W9: E1.1 to E1.1\n`)).not.toThrow();
    expect(() => told(`${lamp}  - W9: G1.+ to G1.-, 1 mm², 0 m\n`)).not.toThrow();
  });

  it('may have a relay that breaks its own coil', () => {
    const buzzer = withParts(
      '  K1: { kind: relay, coil: 85 Ω ± 10 %, pull-in: 8 V, drop-out: 1.5 V }',
      '  - W5: K1.87a to K1.85\n  - W6: K1.86 to GND-1\n  - W7: K1.85 to E1.1\n',
    ).replace('G1.+ to E1.1', 'G1.+ to K1.30');
    expect(told(buzzer)).toContain('system-does-not-settle');
  });

  it('may have 40 relays of which none is decided, and says so instead of looking at a few of their states only', () => {
    const each = <T>(write: (i: number) => T) => Array.from({ length: 40 }, (_, i) => write(i));
    const relays = withParts(
      each(i => `  K${i}: { kind: relay, coil: 85 Ω ± 10 %, pull-in: 12.6 V, drop-out: 12.5 V }`).join('\n'),
      each(
        i =>
          `  - A${i}: G1.+ to K${i}.85\n  - B${i}: K${i}.86 to GND-1\n  - C${i}: G1.+ to K${i}.30\n  - D${i}: K${i}.87 to E1.1\n`,
      ).join(''),
    ).replace('G1.+ to E1.1', 'E1.1 to E1.1');
    const view = workspaceOf([
      [systemUri, relays],
      [procedureUri, procedure],
    ]).view(procedureUri);
    if (view?.kind !== 'procedure') throw new Error('there is no procedure');
    const { circuit } = view.cases[0]!;
    const action = view.procedure.steps.get('volts')!.data.action;
    if (action.verb !== 'measure') throw new Error('the step does not measure');
    expect(circuit.read(action, view.procedure.meter, circuit.rest)).toMatchObject({
      state: 'not computed',
      parts: expect.arrayContaining(['K0', 'K39']),
    });
  });

  it('may have thousands of parts side by side', () => {
    const each = (write: (i: number) => string) => Array.from({ length: 1500 }, (_, i) => write(i)).join('');
    const many = withParts(
      each(i => `  P${i}: { kind: resistor, resistance: ${i + 1} kΩ }\n`).trimEnd(),
      each(i => `  - U${i}: P${i}.1 to E1.1\n  - V${i}: P${i}.2 to GND-1\n`),
    );
    expect(told(many)).toEqual([]);
  }, 120_000);
});

/** Findings come file by file, the system before the procedure. */
function bySystemFirst(a: string, b: string): number {
  return Number(a.startsWith('limits')) - Number(b.startsWith('limits'));
}
