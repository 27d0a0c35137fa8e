import { wire } from '../../../server/src/analysis/lower/wiring.ts';
import { lead, systemOf } from '../../analysis/support.ts';
import { Electricity, type Now } from './electricity.ts';

/**
 * Small invented machines and procedures, the same for the same seed. Most of a procedure is sensible, so that its ends are reached, and
 * some of it is not.
 */
export interface Generated {
  readonly system: string;
  readonly procedure: string;
}

export type Random = () => number;

export function generate(random: Random): Generated {
  const dice = new Dice(random);
  const machine = makeMachine(dice);
  return { system: machine.text, procedure: makeProcedure(dice, machine, new Asked(machine.text)) };
}

/** What the good machine shows with all that switches it on, around which limits are put. */
class Asked {
  readonly #electricity: Electricity;
  readonly #on: Now;

  constructor(text: string) {
    const { system } = systemOf(text);
    this.#electricity = new Electricity(wire(system, system.variants[0]!), () => 0);
    const states = [...system.conditions.keys(), ...system.parts.keys()].map(
      name => [name, onStates[name] ?? ''] as const,
    );
    this.#on = { states: new Map(states), apart: new Set() };
  }

  volts(red: string, black: string): number {
    const shown = this.#electricity.volts(lead(red), lead(black), 10e6, this.#on, []);
    return typeof shown === 'number' ? shown : 0;
  }

  amps(wire: string): number {
    const shown = this.#electricity.ampsIn(wire, this.#on, []);
    return typeof shown === 'number' ? shown : 0;
  }
}

const onStates: Readonly<Record<string, string>> = { key: 'run', S1: 'pressed', S2: 'shut', S3: 'shut', S6: 'on' };

class Dice {
  readonly #random: Random;

  constructor(random: Random) {
    this.#random = random;
  }

  chance(share: number): boolean {
    return this.#random() < share;
  }

  /** From `from` to `to`, both included. */
  count(from: number, to: number): number {
    return from + Math.floor(this.#random() * (to - from + 1));
  }

  between(from: number, to: number): number {
    return from + this.#random() * (to - from);
  }

  one<T>(all: readonly T[]): T {
    return all[Math.floor(this.#random() * all.length)]!;
  }

  some<T>(all: readonly T[], from: number, to: number): readonly T[] {
    const wanted = this.count(from, to);
    const left = [...all];
    const taken: T[] = [];
    while (taken.length < wanted && left.length > 0)
      taken.push(...left.splice(Math.floor(this.#random() * left.length), 1));
    return taken;
  }
}

interface Machine {
  readonly text: string;
  /** Points with a lead on them, and what is written behind those of a plug. */
  readonly points: readonly string[];
  /** Points of the connector. */
  readonly cavities: readonly string[];
  /** Ends of the wires that pass it. */
  readonly sides: ReadonlyMap<string, readonly [string, string]>;
  readonly loads: readonly string[];
  /** What can be set: names and states. */
  readonly settable: ReadonlyMap<string, readonly string[]>;
  /** All that may be named in a repair. */
  readonly mendable: readonly string[];
  /** Wires with a resistance, which a clamp goes around. */
  readonly clamped: readonly string[];
  /** Two ends of parts with ohms. */
  readonly ohmic: readonly { readonly a: string; readonly b: string; readonly ohms: number }[];
  readonly volts: number;
  readonly hasModule: boolean;
  readonly keypadStates: readonly string[];
}

function makeMachine(dice: Dice): Machine {
  const volts = dice.one([12.6, 12.6, 24.5]);
  const supplyTolerance = dice.one([0, 0.2, 0.4, 1.8]);
  const isBattery = dice.chance(0.5);
  const parts: string[] = [];
  const plus = supplyTolerance > 0 ? `${volts} V ± ${supplyTolerance} V` : `${volts} V`;
  const inside = dice.chance(0.4) ? `, internal resistance: ${dice.one(['10 mΩ', '0.2 Ω ± 30 %', '1 Ω'])}` : '';
  parts.push(`G1: { kind: ${isBattery ? 'battery' : 'supply'}, voltage: ${plus}${inside} }`);
  parts.push(`F1: { kind: fuse, rating: ${dice.one(['15 A', '20 A', '30 A'])} }`);
  const keyed = dice.chance(0.7);
  parts.push(
    keyed
      ? `S1: { kind: switch, closed: { key: run }, contact resistance: ${dice.one(['20 mΩ', '50 mΩ ± 40 %'])} }`
      : 'S1: { kind: switch, positions: [released, pressed], closed: pressed, contact resistance: 20 mΩ }',
  );

  // Terminals that lie on one line; the last line is the ground.
  const inner = dice.count(0, 2);
  const lines: string[][] = [['G1.+', 'F1.1'], ['F1.2', 'S1.1'], ['S1.2'], ...Array.from({ length: inner }, () => [])];
  const ground: string[] = ['G1.-'];
  const loads: string[] = [];
  const ohmic: { a: string; b: string; ohms: number }[] = [];
  const settable = new Map<string, readonly string[]>();
  settable.set(keyed ? 'key' : 'S1', keyed ? ['off', 'run'] : ['released', 'pressed']);
  const tolerance = () => dice.one(['', ' ± 1 %', ' ± 5 %', ' ± 10 %', ' ± 20 %']);
  const ohms = () => Number((10 ** dice.between(0.7, 2.8)).toPrecision(2));
  const load = (from: string[], to: string[]) => {
    const kind = dice.one(['resistor', 'resistor', 'coil', 'heater']);
    const id = `${{ resistor: 'R', coil: 'Y', heater: 'H' }[kind]}${loads.length + 1}`;
    const value = ohms();
    parts.push(`${id}: { kind: ${kind}, resistance: ${value} Ω${tolerance()} }`);
    loads.push(id);
    ohmic.push({ a: `${id}.1`, b: `${id}.2`, ohms: value });
    from.push(`${id}.1`);
    to.push(`${id}.2`);
  };
  const toGround = ground;
  for (let i = 0; i < inner; i++) {
    const from = lines[2 + dice.count(0, i)]!;
    if (dice.chance(0.2)) {
      const id = `S${i + 2}`;
      parts.push(`${id}: { kind: switch, positions: [open, shut], closed: shut, contact resistance: 30 mΩ }`);
      settable.set(id, ['open', 'shut']);
      from.push(`${id}.1`);
      lines[3 + i]!.push(`${id}.2`);
    } else load(from, lines[3 + i]!);
    load(lines[3 + i]!, toGround);
  }
  for (let more = dice.count(inner === 0 ? 1 : 0, 2); more > 0; more--) load(dice.one(lines.slice(2)), toGround);

  const hasModule = dice.chance(0.55);
  const keypadStates = ['low', 'middle', 'high'];
  const coded = { pull: 1500, idle: 18_000, on: 820 };
  if (hasModule) {
    const rail = dice.one(['5 V ± 2 %', '5 V', '8 V ± 5 %']);
    const pull = `${dice.one([1000, 1500, 3300])} Ω${tolerance()}`;
    const [a, b] = dice.one([
      ['0.4 V', '3.8 V'],
      ['1 V', '2.2 V'],
      ['0.2 V', '4.5 V'],
    ]);
    const powered = dice.chance(0.6) ? '\n    powered: { pin: 1, above: 6 V }' : '';
    parts.push(`A1:
    kind: module
    ground: 2${powered}
    pins:
      1: { name: feed, draws: 470 Ω ± 20 % }
      2: { name: ground }
      14: { name: sense, pull-up: { to: ${rail}, through: ${pull} } }
    scan data:
      keypad: { from: 14, states: { low: below ${a}, middle: ${a} .. ${b}, high: above ${b} } }
      feed: { from: 1, shows: voltage }
      sense: { from: 14, shows: voltage }`);
    parts.push(
      `S6: { kind: coded switches, idle: ${coded.idle} Ω ± 2 %, buttons: { on: ${coded.on} Ω${tolerance()}, off: short } }`,
    );
    settable.set('S6', ['idle', 'on', 'off']);
    ohmic.push({ a: 'S6.1', b: 'S6.2', ohms: coded.idle });
    dice.one(lines.slice(1, 3)).push('A1.1');
    ground.push('A1.2', 'S6.2');
    lines.push(['A1.14', 'S6.1']);
  }
  parts.push('hose-P1: { kind: item, fails: { chafed: leaks when warm } }');

  const hasPlug = dice.chance(0.6);
  let cavity = 0;
  const sides = new Map<string, readonly [string, string]>();
  const clamped: string[] = [];
  const wires: string[] = [];
  const wire = (from: string, to: string) => {
    const name = `W${wires.length + 1}`;
    const through = hasPlug && cavity < 3 && !from.startsWith('G1') && dice.chance(0.4) ? `X1/${++cavity}` : '';
    const size = dice.one(['', '', ', 20 mΩ', ', 0.5 mm², 3 m', ', 0.3 Ω ± 30 %']);
    if (size !== '' && through === '') clamped.push(name);
    if (through !== '') sides.set(through, [from, to].map(ownerOf) as [string, string]);
    wires.push(`${name}: ${from} to ${to}${through && ` through ${through}`}${size}`);
  };
  for (const line of lines) for (let i = 1; i < line.length; i++) wire(line[i - 1]!, line[i]!);
  for (const from of ground) wire(from, 'GND-1');

  const cavities = [...sides.keys()];
  const contact = dice.one(['', ', contact resistance: 5 mΩ', ', contact resistance: 20 mΩ ± 50 %']);
  const connectors =
    cavities.length > 0
      ? `connectors:\n  X1: { cavities: [${cavities.map(one => one.slice(3)).join(', ')}]${contact} }\n`
      : '';
  const excluded = dice.chance(0.2) ? `faults:\n  W1 open: { excluded: Runs inside a bar }\n` : '';
  const text = `format: 1
system: small
${keyed ? 'conditions:\n  key: [off, run]\n' : ''}parts:
  ${parts.join('\n  ')}
${connectors}grounds:
  GND-1: { title: Frame${dice.one(['', ', contact resistance: 5 mΩ'])} }
wires:
  - ${wires.join('\n  - ')}
${excluded}`;
  const points = [...lines.flat(), ...ground, 'GND-1'];
  const owners = [...new Set(points.map(ownerOf))];
  return {
    text,
    points,
    cavities,
    sides,
    loads,
    settable,
    mendable: [...owners, ...wires.map(one => one.slice(0, one.indexOf(':'))), ...(cavities.length > 0 ? ['X1'] : [])],
    clamped,
    ohmic,
    volts,
    hasModule,
    keypadStates,
  };
}

function ownerOf(point: string): string {
  return point.includes('.') ? point.slice(0, point.indexOf('.')) : point;
}

function makeProcedure(dice: Dice, machine: Machine, asked: Asked): string {
  const steps = Array.from({ length: dice.count(3, 8) }, (_, i) => `step-${i + 1}`);
  const { endings, names } = makeEndings(dice, machine, steps);
  const texts = steps.map((step, i) => `  ${step}:\n${makeStep(dice, machine, asked, steps, names, i)}`);
  return `format: 1
procedure: some
applies to: { some.system.yaml: all }
starts from:
  ${makeEntries(dice, machine, steps).join('\n  ')}
start: step-1
steps:
${texts.join('\n')}
endings:
${endings.join('\n')}
`;
}

function makeEntries(dice: Dice, machine: Machine, steps: readonly string[]): readonly string[] {
  return Array.from({ length: dice.count(1, 2) }, (_, i) => {
    const keys = [`symptom: symptom ${i + 1}`];
    if (dice.chance(0.6)) keys.push(`set: ${settingsIn(dice, machine)}`);
    if (dice.chance(0.6)) keys.push(`when: ${signIn(dice, machine)}`);
    if (dice.chance(0.15)) keys.push(`nature: ${dice.one(['hard', 'intermittent'])}`);
    if (dice.chance(0.3)) keys.push(`shows: [${dice.some([...machine.mendable, 'hose-P1'], 1, 2).join(', ')}]`);
    if (i > 0) keys.push(`start: ${dice.one(steps)}`);
    return `- { ${keys.join(', ')} }`;
  });
}

function makeEndings(dice: Dice, machine: Machine, steps: readonly string[]) {
  const count = dice.count(3, 6);
  const names = Array.from({ length: count }, (_, i) => `end-${i + 1}`);
  const endings = names.map((name, i) => {
    const items = () => `[${dice.some([...machine.mendable, 'hose-P1'], 1, dice.chance(0.3) ? 4 : 2).join(', ')}]`;
    const confirm = dice.chance(0.2) ? `, confirm: ${dice.one(steps)}` : '';
    if (i === 0) return `  ${name}: { no fault: Nothing was found }`;
    if (dice.chance(0.12))
      return `  ${name}: { refer: For somebody else${dice.chance(0.5) ? `, suspect: ${items()}` : ''} }`;
    return `  ${name}: { ${dice.one(['replace', 'mend'])}: ${items()}${confirm} }`;
  });
  return { endings, names };
}

function makeStep(
  dice: Dice,
  machine: Machine,
  asked: Asked,
  steps: readonly string[],
  endings: readonly string[],
  i: number,
): string {
  const later = steps.slice(i + 1);
  const target = () => {
    if (dice.chance(0.06)) return dice.one(steps);
    return later.length > 0 && dice.chance(0.55)
      ? later[dice.chance(0.7) ? 0 : dice.count(0, later.length - 1)]!
      : dice.one(endings);
  };
  const keys: string[] = [];
  const kinds = ['voltage', 'voltage', 'voltage', 'ohms', 'lamp', 'amps', 'heard', 'inspect', 'operate', 'ask', 'do'];
  const ofModule = ['state', 'state', 'scanned volts', 'record', 'record'];
  const kind = dice.one(machine.hasModule ? [...kinds, ...ofModule] : kinds);
  const isDead = ['ohms', 'heard', 'amps'].includes(kind) && dice.chance(0.8);
  // The first steps switch on what there is, or nothing would be seen in most procedures.
  if (isDead) keys.push(machine.settable.has('key') ? 'set: { key: off }' : 'set: { S1: released }');
  else if (i === 0 ? dice.chance(0.85) : dice.chance(0.4)) keys.push(`set: ${settingsIn(dice, machine, i === 0)}`);
  if (dice.chance(0.02)) keys.push(`needs: ${settingsIn(dice, machine)}`);
  if (dice.chance(0.15)) {
    const what = dice.some(machine.mendable, 1, 4).join(', ');
    keys.push(`provoke: { ${dice.one(['wiggle', 'heat'])}: [${what}] }`);
  }
  if (machine.cavities.length > 0 && dice.chance(0.2)) keys.push(`${dice.one(['disconnect', 'connect'])}: [X1]`);
  if (dice.chance(0.1)) keys.push(`${dice.one(['remove', 'refit'])}: [F1]`);
  return [...keys, ...actionOf(dice, machine, asked, kind, target)].map(key => `    ${key}`).join('\n');
}

function actionOf(dice: Dice, machine: Machine, asked: Asked, kind: string, target: () => string): readonly string[] {
  switch (kind) {
    case 'voltage': {
      const { red, black } = leads(dice, machine);
      const around = dice.chance(0.8) ? asked.volts(red, black) : machine.volts * dice.between(0, 1);
      return [
        `measure: ${dice.chance(0.8) ? 'voltage' : 'voltage drop'}`,
        `red: ${red}`,
        `black: ${black}`,
        ...byNumber(dice, around, 'V', target),
      ];
    }
    case 'ohms': {
      const on = dice.one(machine.ohmic);
      return [
        'measure: resistance',
        `red: ${on.a}${side(dice)}`,
        `black: ${on.b}${side(dice)}`,
        ...byNumber(dice, on.ohms, 'Ω', target),
      ];
    }
    case 'lamp':
      return [
        'measure: test lamp',
        ...leadLines(dice, machine),
        `then: { ${words(dice, ['lit', 'dim', 'dark'], target)} }`,
      ];
    case 'heard':
      return [
        'measure: continuity',
        ...leadLines(dice, machine),
        `then: { ${words(dice, ['beeps', 'silent'], target)} }`,
      ];
    case 'amps': {
      if (machine.clamped.length > 0 && dice.chance(0.7)) {
        const around = dice.one(machine.clamped);
        return ['measure: current', `around: ${around}`, ...byNumber(dice, asked.amps(around), 'A', target)];
      }
      const current = machine.volts / dice.one(machine.ohmic).ohms;
      // In line, in place of the open switch.
      const inLine = ['measure: current', 'red: S1.1 (back-probe)', 'black: S1.2 (back-probe)'];
      return [...inLine, ...byNumber(dice, current, 'A', target)];
    }
    case 'state': {
      const states = dice.some(machine.keypadStates, 1, 2);
      const own = dice.chance(0.3) ? `${dice.one(machine.keypadStates)}: ${target()}, ` : '';
      const rest = dice.chance(0.9) ? `, otherwise: ${target()}` : '';
      return ['read: A1 keypad', `expect: [${states.join(', ')}]`, `then: { ${own}within: ${target()}${rest} }`];
    }
    case 'scanned volts': {
      const datum = dice.one(['feed', 'sense']);
      return [`read: A1 ${datum}`, ...byNumber(dice, datum === 'feed' ? machine.volts : 4.6, 'V', target)];
    }
    case 'record': {
      const channels = dice.some(['A1 keypad', 'A1 feed', 'A1 sense'], 1, 2);
      const event = dice.chance(0.4) ? `, event: { ${dice.one(channels)}: changes }` : '';
      const moved = channels.filter(() => dice.chance(0.8)).map(one => `${one} moved first: ${target()}`);
      const last = dice.chance(0.9) ? [`no event: ${target()}`] : [];
      return [
        `record: { channels: [${channels.join(', ')}], for: 1 min${event} }`,
        `then: { ${[...moved, ...last, ...(moved.length + last.length === 0 || dice.chance(0.3) ? [`otherwise: ${target()}`] : [])].join(', ')} }`,
      ];
    }
    case 'inspect': {
      const items = dice.some([...machine.mendable, 'hose-P1'], 1, 3);
      return [`inspect: [${items.join(', ')}]`, `then: { ${answers(dice, machine, items, target)} }`];
    }
    case 'operate':
    case 'ask':
      return [
        `${kind}: What does it do`,
        `then: { ${answers(dice, machine, dice.some(machine.mendable, 1, 2), target)} }`,
      ];
    default:
      return ['do: Something that leads on', `then: ${target()}`];
  }
}

function answers(dice: Dice, machine: Machine, items: readonly string[], target: () => string): string {
  const one = (text: string, share: number) => {
    const says: string[] = [];
    if (dice.chance(share)) says.push(`shows: [${items.join(', ')}]`);
    if (dice.chance(share === 0 ? 0.5 : 0.3)) says.push(`when: ${signIn(dice, machine)}`);
    return says.length === 0 ? `${text}: ${target()}` : `${text}: { go to: ${target()}, ${says.join(', ')} }`;
  };
  const found = [one('something is seen', 0.6)];
  if (dice.chance(0.5)) found.push(one('another thing is seen', 0.4));
  found.push(dice.chance(0.85) ? `nothing is seen: ${target()}` : one('it works', 0));
  if (dice.chance(0.1)) found.push(`otherwise: ${target()}`);
  return found.join(', ');
}

function words(dice: Dice, all: readonly string[], target: () => string): string {
  const said = dice.some(all, 1, all.length).map(word => `${word}: ${target()}`);
  return [...said, ...(dice.chance(0.95) ? [`otherwise: ${target()}`] : [])].join(', ');
}

/** Limits somewhere around a value, and branches that cover them, mostly. */
function byNumber(dice: Dice, around: number, unit: string, target: () => string): readonly string[] {
  const value = around * dice.one([1, 1, 1, dice.between(0.5, 1.5)]);
  const width = Math.max(Math.abs(value) * dice.one([0.02, 0.05, 0.1, 0.3]), unit === 'V' ? 0.05 : 0.01);
  const write = (number: number) => `${Number(number.toPrecision(4))} ${unit}`;
  const [low, high] = [value - width, value + width];
  const limits = dice.one([
    `${write(low)} .. ${write(high)}`,
    `${write(low)} .. ${write(high)}`,
    `at least ${write(low)}`,
    `below ${write(high)}`,
  ]);
  const then = dice.one([
    ...Array.from({ length: 6 }, () => () => `within: ${target()}, otherwise: ${target()}`),
    () => `within: ${target()}, below: ${target()}, above: ${target()}`,
    () => `within: ${target()}, below ${write(low * 0.5)}: ${target()}, otherwise: ${target()}`,
    () => `within: ${target()}, above ${write(high * 1.5)}: ${target()}`,
    () => `within: ${target()}, OL: ${target()}, otherwise: ${target()}`,
    // Two branches that take the same readings.
    () => `within: ${target()}, above ${write((low + high) / 2)}: ${target()}, otherwise: ${target()}`,
  ]);
  return [`limits: ${limits}`, `then: { ${then()} }`];
}

function leadLines(dice: Dice, machine: Machine): readonly string[] {
  const { red, black } = leads(dice, machine);
  return [`red: ${red}`, `black: ${black}`];
}

function leads(dice: Dice, machine: Machine): { red: string; black: string } {
  const point = () => {
    const [cavity] = dice.some(machine.cavities, 1, 1);
    if (cavity && dice.chance(0.25)) {
      const named = machine.sides.get(cavity)!;
      return `${cavity} (${dice.one(named)} side${dice.chance(0.95) ? ', back-probe' : ''})`;
    }
    return `${dice.one(machine.points)}`;
  };
  const mark = (text: string) => (text.includes('(') || text === 'GND-1' ? text : `${text}${side(dice)}`);
  const red = mark(point());
  const black = dice.chance(0.7) ? 'GND-1' : mark(point());
  return { red, black: black === red ? 'GND-1' : black };
}

/** Leads go in from behind; now and then nobody says so, and a plug is in the way. */
function side(dice: Dice): string {
  return dice.chance(0.98) ? ' (back-probe)' : '';
}

function settingsIn(dice: Dice, machine: Machine, isOn = false): string {
  const chosen = isOn ? [...machine.settable] : dice.some([...machine.settable], 1, 2);
  const settings = chosen.map(([name, states]) => {
    const on = states.includes('run') ? 'run' : states.includes('pressed') ? 'pressed' : undefined;
    return `${name}: ${isOn && on ? on : dice.one(states)}`;
  });
  return `{ ${settings.join(', ')} }`;
}

function signIn(dice: Dice, machine: Machine): string {
  const { hasModule, loads, volts, keypadStates, settable } = machine;
  const parts = [
    () => `${dice.one(loads)}: ${dice.one(['on', 'off', 'off'])}`,
    () => `${dice.one(loads)}: ${dice.one(['on', 'off', 'off'])}`,
    ...(hasModule
      ? [
          () => `A1 keypad: [${dice.some(keypadStates, 1, 2).join(', ')}]`,
          () => `A1 feed: below ${Number((volts * dice.between(0.5, 1)).toPrecision(3))} V`,
        ]
      : []),
  ];
  const [name, states] = dice.one([...settable]);
  const more = dice.chance(0.1) ? [`${name}: ${dice.one(states)}`] : [];
  return `{ ${[dice.one(parts)(), ...more].join(', ')} }`;
}
