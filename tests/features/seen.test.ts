import { describe, expect, it } from 'vitest';
import { completion } from '../../server/src/features/completion/completion.ts';
import { definition } from '../../server/src/features/definition.ts';
import { hover } from '../../server/src/features/hover/hover.ts';
import { rename } from '../../server/src/features/rename.ts';
import { type Scene, scene, textAt, windows } from './support.ts';

const system = `format: 1
system: pump
conditions:
  key: [off, run]
  oil temperature: { from: -20 °C, to: 110 °C, rest: 20 °C }
parts:
  G1: { kind: battery, voltage: 12.6 V ± 0.4 V, internal resistance: 10 mΩ }
  S6: { kind: coded switches, title: Keypad, idle: 18 kΩ, buttons: { more: 820 Ω, less: 2.2 kΩ } }
  Y1: { kind: coil, title: Flow valve, resistance: 9.2 Ω }
  K3: { kind: relay, coil: 85 Ω, pull-in: 8 V }
  R1: { kind: resistor, resistance: 120 Ω }
  hose-P1: { kind: item, fails: { chafed: Leaks when warm } }
  lift control:
    kind: module
    pins:
      1: { name: feed, draws: 470 Ω ± 20 % }
      14: { name: keypad sense, pull-up: { to: 5 V, through: 1.5 kΩ } }
      22: { name: relay drive, output: low side }
    scan data:
      keypad: { from: 14, states: { held: below 3 V, idle: above 4 V } }
      feed voltage: { from: 1, shows: voltage }
      oil: { follows: oil temperature }
`;

const procedure = `format: 1
procedure: flow-stops
applies to: { pump.system.yaml: all }
starts from:
  - symptom: flow stops
    set: { key: run, S6: more }
    when: { Y1: off, lift control keypad: held }
    nature: intermittent
    shows: [hose-P1 chafed]
start: try
steps:
  try:
    operate: Hold the keypad
    then:
      flows: { go to: fine, when: { lift control.22: on, Y1: on } }
      stops: { go to: inside, when: [{ K3: off }, { lift control feed voltage: below 9 V }] }
endings:
  fine: { no fault: The flow holds }
  inside: { refer: Internal to the module, suspect: [lift control] }
`;

/** The procedure with `$0` at the cursor where `from` stands. */
function at(from: string, to: string, change = (text: string) => text): Scene {
  expect(procedure).toContain(from);
  const marked = procedure.replace(from, () => to);
  return scene({ 'flow.procedure.yaml': change(marked), 'pump.system.yaml': change(system) });
}

function labels(cursor: Scene): string[] {
  return completion(cursor.workspace, cursor.view, cursor.offset).map(one => one.label);
}

describe('completion of what the machine does', () => {
  const names = ['Y1', 'K3', 'lift control', 'lift control.22', 'key', 'oil temperature', 'S6'];
  const data = ['lift control keypad', 'lift control feed voltage', 'lift control oil'];

  it('offers loads, outputs, scan data and what can be set, in an answer and an entry', () => {
    const answer = labels(at('{ lift control.22: on, Y1: on }', '{ $0 }'));
    expect(answer.sort()).toEqual([...names, ...data].sort());
    expect(labels(at('{ Y1: off, lift control keypad: held }', '{ $0 }')).sort()).toEqual([...names, ...data].sort());
    const second = labels(at('lift control feed voltage: below 9 V', '$0'));
    expect(second).toEqual(expect.arrayContaining(names));
  });

  it.each([
    ['Y1: on }', 'Y1: $0 }', ['on', 'off']],
    ['lift control.22: on', 'lift control.22: $0', ['on', 'off']],
    ['lift control keypad: held', 'lift control keypad: $0', ['held', 'idle']],
    ['Y1: off,', 'S6: $0,', ['idle', 'more', 'less']],
    ['Y1: off,', 'key: [off, $0],', ['off', 'run']],
    ['voltage: below 9 V', 'voltage: $0', ['below 12.6 V', 'above 12.6 V']],
    ['Y1: off,', 'lift control oil: $0,', ['below 20 °C', 'above 20 °C']],
  ])('offers for `%s` written `%s` its states %s', (from, to, states) => {
    expect(labels(at(from, to)).filter(label => label !== '[…]')).toEqual(states);
    expect(labels(at(from, to, windows)).filter(label => label !== '[…]')).toEqual(states);
  });

  it('offers the keys where they belong', () => {
    expect(labels(at('    nature: intermittent\n', '    $0\n'))).toEqual(expect.arrayContaining(['nature', 'start']));
    expect(labels(at('go to: fine, when: { lift control.22: on, Y1: on }', 'go to: fine, $0'))).toEqual(
      expect.arrayContaining(['when', 'shows']),
    );
    expect(labels(at('intermittent', '$0'))).toEqual(['hard', 'intermittent']);
    expect(labels(at(', suspect: [lift control]', ', $0'))).toContain('suspect');
    expect(labels(at('suspect: [lift control]', 'suspect: [$0]'))).toEqual(expect.arrayContaining(['Y1', 'hose-P1']));
  });

  it('offers something or nothing, but never fails, wherever the text ends', () => {
    for (let end = 0; end <= procedure.length; end += 5) {
      const cursor = scene({ 'flow.procedure.yaml': `${procedure.slice(0, end)}$0`, 'pump.system.yaml': system });
      expect(() => labels(cursor)).not.toThrow();
      expect(() => hover(cursor.workspace, cursor.view, cursor.offset)).not.toThrow();
    }
  });
});

describe('hover over what the machine does', () => {
  it.each([
    ['lift control.22: on', 'lift control.22: o$0n', '**on** · of lift control.22\n\nThe module drives it.'],
    ['Y1: off', 'Y1: of$0f', '**off** · of Y1\n\nIt has too little voltage to do anything that is seen.'],
    ['K3: off', 'K3: of$0f', '**off** · of K3\n\nIts coil has dropped out.'],
    [': below 9 V', ': bel$0ow 9 V', 'Holds while `lift control feed voltage` shows below 9 V.'],
    ['Y1: off', 'Y$01: off', '**Y1** · part\n\n```yaml\nY1: { kind: coil, title: Flow valve'],
    ['keypad: held', 'key$0pad: held', '**keypad** · scan datum of lift control'],
    ['keypad: held', 'keypad: he$0ld', '**held** · state of lift control keypad'],
    ['nature: int', 'nat$0ure: int', 'Which faults bring a technician here.'],
    ['suspect: [', 'sus$0pect: [', 'The parts and wires that are then to blame.'],
  ])('of `%s` at `%s` says %j', (from, to, said) => {
    const cursor = at(from, to);
    expect(hover(cursor.workspace, cursor.view, cursor.offset)?.markdown).toContain(said);
  });
});

describe('names in what the machine does', () => {
  it.each([
    ['Y1: off', 'Y$01: off', 'Y1'],
    ['lift control.22: on', 'lift control.$022: on', '22'],
    ['lift control.22: on', 'li$0ft control.22: on', 'lift control'],
    ['keypad: held', 'key$0pad: held', 'keypad'],
    ['keypad: held', 'keypad: he$0ld', 'held'],
    ['S6: more', 'S6: m$0ore', 'more'],
    ['suspect: [lift', 'suspect: [l$0ift', 'lift control'],
    ['hose-P1 chafed', 'hose-P1 ch$0afed', 'chafed'],
  ])('lead from `%s` at `%s` to where %s is declared', (from, to, declared) => {
    const cursor = at(from, to);
    const places = definition(cursor.workspace, cursor.view, cursor.offset);
    const found = places.map(place => textAt(cursor.workspace.view(place.uri)!, place));
    expect(found).toEqual([declared]);
  });

  function renamed(cursor: Scene, to: string): string {
    const answer = rename(cursor.workspace, cursor.view, cursor.offset, to);
    const edits = (answer.value ?? []).filter(edit => edit.uri === cursor.view.uri).sort((a, b) => b.start - a.start);
    return edits.reduce((text, edit) => text.slice(0, edit.start) + edit.text + text.slice(edit.end), procedure);
  }

  it('are changed with the thing', () => {
    expect(renamed(at('Y1: off', 'Y$01: off'), 'Y9')).toBe(procedure.replaceAll('Y1', 'Y9'));
    expect(renamed(at('[lift', '[li$0ft'), 'A1')).toBe(procedure.replaceAll('lift control', 'A1'));
    expect(renamed(at('keypad: held', 'key$0pad: held'), 'pad')).toBe(
      procedure.replace('control keypad', 'control pad'),
    );
    expect(renamed(at('keypad: held', 'keypad: he$0ld'), 'down')).toBe(procedure.replace('held', 'down'));
  });
});
