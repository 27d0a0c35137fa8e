import { expect, it } from 'vitest';
import { procedureOf } from './support.ts';

const system = `
format: 1
system: lamp
conditions: { key: [off, run], door: [shut, open] }
parts:
  G1: { kind: battery, voltage: 12 V, internal resistance: 10 mΩ }
  E1: { kind: resistor, resistance: 10 Ω }
connectors: { X1: { cavities: [1] } }
grounds: { GND-1: { title: Frame } }
wires:
  - W1: G1.+ to E1.1 through X1/1
  - W2: E1.2 to GND-1
  - W3: G1.- to GND-1
`;

const flowOf = (rest: string) =>
  procedureOf(
    system,
    `format: 1\nprocedure: p\napplies to: { some.system.yaml: all }\nstarts from: [{ symptom: dark }]\nstart: a\n${rest}`,
  ).cases[0]!.flow;

const words = (situations: readonly { states: ReadonlyMap<string, string>; apart: ReadonlySet<string> }[]) =>
  situations.map(s => `${[...s.states.values()].join(' ')} ${[...s.apart].join(' ')}`.trim());

it('keeps what a step set until another step sets it', () => {
  const flow = flowOf(`steps:
  a: { do: x, set: { key: run }, then: b }
  b: { do: x, set: { door: open }, then: c }
  c: { do: x, set: { key: off }, then: end }
endings: { end: { no fault: x } }
`);
  expect(words(flow.arriving('a'))).toEqual(['off shut']);
  expect(words(flow.during('b'))).toEqual(['run open']);
  expect(words(flow.atEnding('end'))).toEqual(['off open']);
});

it('tells apart the ways in which a step is reached', () => {
  const flow = flowOf(`steps:
  a: { ask: x, then: { yes: b, no: c } }
  b: { do: x, set: { key: run }, then: c }
  c: { do: x, then: end }
endings: { end: { no fault: x } }
`);
  expect(words(flow.arriving('c')).sort()).toEqual(['off shut', 'run shut']);
});

it('keeps a plug apart until it is connected, and a repair fits what it names', () => {
  const flow = flowOf(`steps:
  a: { do: x, disconnect: [X1], then: b }
  b: { ask: x, then: { yes: c, no: mend } }
  c: { do: x, connect: [X1], then: end }
  sure: { do: x, then: end }
endings:
  mend: { mend: [X1], confirm: sure }
  end: { repaired: x }
`);
  expect(words(flow.arriving('b'))).toEqual(['off shut X1']);
  expect(words(flow.atEnding('mend'))).toEqual(['off shut X1']);
  expect(words(flow.arriving('sure'))).toEqual(['off shut']);
  expect(words(flow.atEnding('end'))).toEqual(['off shut']);
});

it('comes to an end in a loop that sets things to and fro', () => {
  const flow = flowOf(`steps:
  a: { ask: x, set: { key: run }, then: { again: b, on: end } }
  b: { do: x, set: { key: off }, then: a }
endings: { end: { no fault: x } }
`);
  expect(words(flow.arriving('a')).sort()).toEqual(['off shut']);
  expect(flow.truncated).toBe(false);
});
