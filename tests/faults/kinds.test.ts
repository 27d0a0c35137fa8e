import { describe, expect, it } from 'vitest';
import { faultsOf } from '../../server/src/analysis/faults/derive.ts';
import { systemOf } from '../analysis/support.ts';

/** The faults of section 5 of the analyses, by kind of part; the ratios behind their likelihoods are named in weights.ts. */
const kinds: readonly [part: string, faults: readonly string[]][] = [
  ['{ kind: battery, voltage: 12 V }', ['flat', 'weak', 'cell shorted', 'open']],
  ['{ kind: supply, voltage: 5 V }', ['dead', 'low']],
  ['{ kind: fuse, rating: 10 A }', ['blown']],
  ['{ kind: breaker, rating: 10 A }', ['tripped']],
  ['{ kind: fusible link, size: 1 mm², length: 0.2 m }', ['blown']],
  ['{ kind: switch, positions: [up, down], closed: down }', ['open', 'stuck closed', 'resistive contact']],
  [
    '{ kind: switch, positions: [f, n, r], contacts: { C to F: f, C to R: r } }',
    ['C to F', 'C to R'].flatMap(c => [`${c} open`, `${c} stuck closed`, `${c} resistive contact`]),
  ],
  [
    '{ kind: coded switches, idle: 9 kΩ, buttons: { on: 1 kΩ, off: short } }',
    [
      ...['open', 'shorted', 'stuck on', 'on open', 'on shorted', 'on drifted', 'stuck off'],
      ...['idle open', 'idle shorted', 'idle drifted'],
    ],
  ],
  [
    '{ kind: relay, coil: 85 Ω, suppression: { resistor: 680 Ω } }',
    [...['coil open', 'coil shorted', 'stuck open', 'welded', 'resistive contact'], 'suppression resistor open'],
  ],
  ['{ kind: resistor, resistance: 1 kΩ }', ['open', 'shorted', 'drifted']],
  ['{ kind: heater, resistance: 1 Ω }', ['open', 'shorted']],
  ['{ kind: lamp, power: 21 W, voltage: 12 V }', ['open', 'shorted']],
  ['{ kind: coil, resistance: 9 Ω }', ['open', 'shorted turns']],
  ['{ kind: motor, resistance: 1 Ω }', ['open', 'shorted turns']],
  ['{ kind: pickup, resistance: 950 Ω }', ['open', 'shorted turns']],
  ['{ kind: diode, forward voltage: 0.7 V }', ['open', 'shorted']],
  ['{ kind: led, forward voltage: 1.8 V }', ['open', 'shorted']],
  ['{ kind: zener, zener voltage: 36 V }', ['open', 'shorted']],
  ['{ kind: transistor, gain: 200 }', ['open', 'shorted']],
  ['{ kind: rtd, follows: heat, curve: { standard: IEC 60751 Pt100 } }', ['open', 'shorted', 'out of curve']],
  [
    '{ kind: potentiometer, follows: heat, resistance: 5 kΩ }',
    ['terminal 1 open', 'terminal 2 open', 'terminal 3 open', '2 shorted to 1', '2 shorted to 3', 'out of curve'],
  ],
  [
    '{ kind: ratiometric sensor, follows: heat, span: 10 % .. 90 % }',
    [
      ...['supply open', 'signal open', 'ground open', 'signal shorted to supply', 'signal shorted to ground'],
      'out of curve',
    ],
  ],
  ['{ kind: current loop, follows: heat, span: 4 mA .. 20 mA }', ['open', 'shorted', 'out of curve']],
  ['{ kind: item, fails: { chafed: Leaks when warm } }', ['chafed']],
];

describe('the faults of a part', () => {
  it.each(kinds)('%s', (part, expected) => {
    const view = systemOf(
      `format: 1\nsystem: one\nconditions: { heat: { from: 0 °C, to: 90 °C } }\nparts:\n  P: ${part}\n`,
    );
    const faults = faultsOf(view.system, 'standard');
    expect(faults.map(f => f.id)).toEqual(expected.map(kind => `P ${kind}`));
    expect(faults.every(f => f.owner === 'P' && f.mendedBy.join() === 'P')).toBe(true);
  });

  it('a module has a fault at each pin, by name where it lives by it, and two at each driver', () => {
    const view = systemOf(`format: 1
system: one
parts:
  A1:
    kind: module
    ground: 2
    powered: { pin: 1, above: 6 V }
    pins: { 1: { name: feed }, 2: { name: ground }, 3: { name: sense }, 4: { output: low side } }
`);
    const faults = faultsOf(view.system, 'standard');
    expect(faults.map(f => f.id)).toEqual([
      ...['A1 supply lost', 'A1 ground lost', 'A1.3 open', 'A1.4 open', 'A1.4 stuck off', 'A1.4 stuck on'],
    ]);
    expect(new Set(faults.map(f => f.owner))).toEqual(new Set(['A1']));
  });
});

describe('the faults of wires and contacts', () => {
  const head = `format: 1
system: one
parts:
  G1: { kind: battery, voltage: 12 V }
  F1: { kind: fuse, rating: 10 A }
  E1: { kind: resistor, resistance: 10 Ω }
`;
  const idsOf = (text: string, owner: string) =>
    faultsOf(systemOf(head + text).system, 'standard').flatMap(f => (f.owner === owner ? [f.id] : []));

  it('a wire on the frame is not shorted to it, one on the supply is not shorted to that', () => {
    const text = `grounds:
  GND-1: {}
wires:
  - W1: G1.+ to F1.1
  - W2: F1.2 to E1.1
  - W3: E1.2 to GND-1
  - W4: G1.- to GND-1
`;
    expect(idsOf(text, 'W2')).toEqual(['W2 open', 'W2 high resistance', 'W2 short to ground']);
    expect(idsOf(text, 'W3')).toEqual(['W3 open', 'W3 high resistance']);
    expect(idsOf(text, 'GND-1')).toEqual(['GND-1 open', 'GND-1 high resistance']);
    expect(idsOf(text, 'E1.2')).toEqual(['E1.2 open', 'E1.2 high resistance']);
  });

  it('without a ground the frame carries nothing, and a wire touches the negative side', () => {
    const text = 'wires:\n  - W1: G1.+ to F1.1\n  - W2: F1.2 to E1.1\n  - W3: E1.2 to G1.-\n';
    expect(idsOf(text, 'W2')).toContain('W2 short to negative');
  });

  it('two wires that share a cavity have its faults each', () => {
    const text = `connectors:
  X1: { cavities: [1] }
wires:
  - W1: G1.+ to F1.1 through X1/1
  - W2: G1.+ to E1.1 through X1/1
`;
    expect(idsOf(text, 'X1')).toEqual([
      ...['X1/1 open at W1', 'X1/1 high resistance at W1', 'X1/1 open at W2', 'X1/1 high resistance at W2'],
    ]);
  });

  it.each(['W3: E1.2 to SP1 through X1/2', 'W3: SP1 to E1.2 through X1/2'])(
    'neighbours touch on the same side of a connector: %s',
    wire => {
      const view = systemOf(`${head}connectors:
  X1: { cavities: [1, 2] }
splices:
  SP1: There
wires:
  - W2: E1.1 to F1.2 through X1/1, beside W3
  - ${wire}
`);
      const faults = faultsOf(view.system, 'standard');
      const nodesOf = (id: string): readonly number[] => {
        const change = faults.find(f => f.id === id)?.changes[0];
        if (change?.do === 'bridge') return change.between;
        return change?.do === 'cut' ? change.tie.between : [];
      };
      // On the side of E1 both wires lead to E1, and the piece of W3 that W2 touches there ends at E1.2.
      const touched = nodesOf('W2 short to W3 before X1/1')[1]!;
      const piece = ['W3 open before X1/2', 'W3 open after X1/2'].map(nodesOf).find(nodes => nodes.includes(touched));
      expect(piece).toContain(nodesOf('E1.2 open')[1]);
    },
  );
});
