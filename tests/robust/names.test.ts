/** Names are the author's own: any characters, any alphabet. What a thing is called changes nothing but its name in the messages. */
import * as fs from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Files, folder, survive } from './support.ts';

const machine = (part: string) => `format: 1
system: s
parts:
  G1: { kind: battery, voltage: 12.6 V ± 0.4 V, internal resistance: 10 mΩ }
  ${JSON.stringify(part)}: { kind: resistor, resistance: 10 Ω ± 5 % }
grounds:
  GND-1: {}
wires:
  - W1: ${JSON.stringify(`G1.+ to ${part}.1`)}
  - W2: ${JSON.stringify(`${part}.2 to GND-1`)}
  - W3: G1.- to GND-1
`;

const procedure = (part: string) => `format: 1
procedure: p
applies to: { s.system.yaml: all }
starts from: [{ symptom: dark }]
start: volts
steps:
  volts:
    measure: voltage
    red: ${JSON.stringify(`${part}.1`)}
    black: GND-1
    limits: 11 V .. 14 V
    then: { within: ok, otherwise: mend }
endings:
  ok: { no fault: All is well }
  mend: { refer: Ask the maker }
`;

const filesFor = (part: string): Files =>
  new Map([
    [`${folder}s.system.yaml`, machine(part)],
    [`${folder}p.procedure.yaml`, procedure(part)],
  ]);

describe('a part', () => {
  it.each([
    ...'.-+*/\\&!|>%@`~^$#?()[]{}<>\'"=_;:',
    'x y',
    'x.y',
    'x/y',
    'x (y)',
    '1',
    '1e3',
    '0x1F',
    'null',
    'true',
    'on',
    'only',
  ])('may be called %s', name => {
    expect(survive(filesFor(name))).toEqual([]);
  });

  it.each(['Lämpchen', 'фара', '前照灯', 'مصباح', '💡', 'e\u0301', 'K\u200D1', 'İ'])('may be called %s', name => {
    expect(survive(filesFor(name))).toEqual([]);
  });

  it('may not hold what parts a wire line, and then something is told', () => {
    for (const name of ['x, y', 'x to y', 'x through y']) expect(survive(filesFor(name)), name).not.toEqual([]);
  });

  it('may be called anything, and nothing breaks', () => {
    const name = fc.oneof(fc.string({ maxLength: 12 }), fc.string({ unit: 'grapheme', maxLength: 8 }));
    fc.assert(fc.property(name, part => void survive(filesFor(part))));
  });
});

describe('a whole machine', () => {
  const names = ['loader-aux.system.yaml', 'aux-flow-drops-out.procedure.yaml', 'aux-flow-drops-out.samples.yaml'];
  const texts = names.map(name => fs.readFileSync(`examples/loader/${name}`, 'utf8'));
  // Two limits that the circuit contradicts, so that readings with the names of parts stand in the messages.
  const original = texts.map(text => text.replaceAll(/limits: at least 1[12][.\d]* V/g, 'limits: at least 13.9 V'));
  const summary = (all: readonly string[]) =>
    survive(new Map(all.map((text, i) => [folder + names[i]!, text]))).map(
      ({ rule, message, detail = '', help = '' }) => `${rule}: ${message} | ${detail} | ${help}`,
    );

  it('with every part, wire, plug and ground renamed says the same in the new names', () => {
    // Letter for letter of the same length and in the same order, so that nothing is cut off or sorted differently.
    const turned = (text: string) =>
      text.replaceAll(/\b(?:GND|SP|[A-Z])(?=-?\d)/g, word => `${word.slice(0, -1)}${word.at(-1)}Z`);
    const before = summary(original);
    expect(before.length).toBeGreaterThan(3);
    expect(summary(original.map(turned))).toEqual(before.map(turned));
  });
});
