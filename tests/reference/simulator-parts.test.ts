import { expect, it } from 'vitest';
import { ask, number, systemOf } from '../analysis/support.ts';
import { randomFrom } from '../support/random-network.ts';
import { startSimulator } from '../support/simulator.ts';

/**
 * Relays, module pins, coded switches and sensors beside ngspice 45. One machine has one of each; its values are by chance, and its netlist is
 * written by hand from what each part is in a circuit: a closed contact is its resistance, a pin is what pulls it, the wiper of a
 * potentiometer begins at its first terminal, a ratiometric sensor divides the voltage between its supply and its ground. What the relay and
 * the module do follows from the reading of the keypad, and is put into the netlist by hand as well. Temperatures and tables stand beside
 * their sources in `sensors.test.ts`.
 */
const firstSeed = 20_261_201;
const machines = 150;

interface Values {
  readonly volts: number;
  readonly inner: number;
  readonly fuse: number;
  readonly contact: number;
  readonly coil: number;
  readonly suppression: number;
  readonly load: number;
  readonly ground: number;
  readonly feed: number;
  readonly draws: number;
  readonly pullUp: number;
  readonly idle: number;
  readonly button: number;
  readonly driver: number;
  readonly supply: number;
  readonly track: number;
  readonly place: number;
  readonly behind: number;
  readonly pullDown: number;
  readonly shunt: number;
  readonly hall: number;
  readonly high: number;
}

function valuesFrom(seed: number): Values {
  const random = randomFrom(seed);
  const between = (low: number, high: number) => Number((low + random() * (high - low)).toPrecision(4));
  return {
    volts: between(11, 14.5),
    inner: between(0.005, 0.05),
    fuse: between(0.002, 0.05),
    contact: between(0.005, 0.1),
    coil: between(60, 120),
    suppression: between(400, 900),
    load: between(2, 20),
    ground: between(0.001, 0.2),
    feed: between(0.01, 0.3),
    draws: between(200, 900),
    pullUp: between(1000, 2000),
    idle: between(15_000, 25_000),
    button: between(700, 900),
    driver: between(0.2, 1),
    supply: between(1, 5),
    track: between(3000, 8000),
    place: between(5, 95),
    behind: between(500, 2000),
    pullDown: between(50_000, 200_000),
    shunt: between(100, 300),
    hall: between(10, 50),
    high: between(0.05, 0.5),
  };
}

const systemText = (v: Values, looped: boolean) => `format: 1
system: bench
conditions:
  lever: { from: 0 %, to: 100 %, rest: ${v.place} % }
  gate: [shut, open]
parts:
  G1: { kind: battery, voltage: ${v.volts} V, internal resistance: ${v.inner} Ω }
  F1: { kind: fuse, rating: 20 A, resistance: ${v.fuse} Ω }
  K1: { kind: relay, coil: ${v.coil} Ω, pull-in: 7 V, drop-out: 1.5 V, contact resistance: ${v.contact} Ω, suppression: { resistor: ${v.suppression} Ω } }
  H1: { kind: heater, resistance: ${v.load} Ω }
  H2: { kind: heater, resistance: ${v.load} Ω }
  H3: { kind: heater, resistance: 40 Ω }
  S6: { kind: coded switches, idle: ${v.idle} Ω, buttons: { on: ${v.button} Ω, off: short } }
  B4: { kind: potentiometer, follows: lever, resistance: ${v.track} Ω }
  B5: { kind: ratiometric sensor, follows: lever, span: 10 % .. 90 %, resistance: ${v.behind} Ω }
  B6: { kind: hall sensor, on when: { gate: open }, on resistance: ${v.hall} Ω, least voltage: 3 V }
  B7: { kind: current loop, follows: lever, span: 4 mA .. 20 mA, least voltage: 5 V }
  R7: { kind: resistor, resistance: ${v.shunt} Ω }
  A1:
    kind: module
    ground: 2
    powered: { pin: 1, above: 6 V }
    pins:
      1: { name: feed, draws: ${v.draws} Ω }
      2: { name: ground }
      14: { name: keypad, pull-up: { to: 5 V, through: ${v.pullUp} Ω } }
      16: { name: lever, pull-down: { through: ${v.pullDown} Ω } }
      17: { name: pressure, pull-down: { through: ${v.pullDown} Ω } }
      18: { name: gate, pull-up: { to: 5 V, through: ${v.pullUp} Ω } }
      22: { name: relay drive, output: low side, on resistance: ${v.driver} Ω }
      23: { name: heater drive, output: high side, feed: 1, on resistance: ${v.high} Ω }
      30: { name: sensor supply, output: supply, voltage: 5 V, through: ${v.supply} Ω }
    scan data:
      keypad: { from: 14, states: { off: below 0.5 V, on: 1.2 V .. 2.6 V, idle: above 4 V } }
    rules:
      - { when: { keypad: on }, do: { 22: on, 23: on } }
grounds: { GND-1: { title: Frame } }
wires:
  - W1: G1.+ to F1.1
  - W2: F1.2 to A1.1, ${v.feed} Ω
  - W3: F1.2 to K1.86
  - W4: K1.85 to A1.22
  - W5: F1.2 to K1.30
  - W6: K1.87 to H1.1
  - W7: K1.87a to H2.1
  - W8: H1.2 to GND-1
  - W9: H2.2 to GND-1
  - W10: S6.1 to A1.14
  - W11: S6.2 to GND-1
  - W12: A1.2 to GND-1, ${v.ground} Ω
  - W13: A1.30 to B4.1
  - W14: B4.3 to A1.2
  - W15: B4.2 to A1.16
  - W16: A1.30 to B5.supply
  - W17: B5.ground to A1.2
  - W18: B5.signal to A1.17
  - W19: A1.30 to B6.supply
  - W20: B6.ground to A1.2
  - W21: B6.signal to A1.18
  - W22: A1.23 to H3.1
  - W23: H3.2 to GND-1
  - W24: G1.- to GND-1
${looped ? '  - W25: F1.2 to B7.1\n  - W26: B7.2 to R7.1\n  - W27: R7.2 to GND-1\n' : ''}`;

interface Machine {
  readonly v: Values;
  /** What the names in the netlist begin with. */
  readonly p: string;
  /** The button is held, so that the module pulls the coil and feeds its heater. */
  readonly on: boolean;
  readonly open: boolean;
  readonly looped: boolean;
}

function netlist({ v, p, on, open, looped }: Machine): string[] {
  const ratio = 0.1 + (0.8 * v.place) / 100;
  const lines = [
    `vg ${p}g 0 ${v.volts}`,
    `rg ${p}g ${p}f ${v.inner}`,
    `rf ${p}f ${p}b ${v.fuse}`,
    `rw ${p}b ${p}a1 ${v.feed}`,
    `rd ${p}a1 ${p}a2 ${v.draws}`,
    `re ${p}a2 0 ${v.ground}`,
    `rs ${p}b ${p}k85 ${v.suppression}`,
    `rc ${p}b ${p}k85 ${v.coil}`,
    `rk ${p}b ${on ? `${p}h1` : `${p}h2`} ${v.contact}`,
    `rh1 ${p}h1 0 ${v.load}`,
    `rh2 ${p}h2 0 ${v.load}`,
    `rh3 ${p}a23 0 40`,
    `vk ${p}k5 ${p}a2 5`,
    `rpu ${p}k5 ${p}a14 ${v.pullUp}`,
    `ri ${p}a14 0 ${v.idle}`,
    `v5 ${p}s5 ${p}a2 5`,
    `rsu ${p}s5 ${p}a30 ${v.supply}`,
    `rt1 ${p}a30 ${p}a16 ${(v.track * v.place) / 100}`,
    `rt2 ${p}a16 ${p}a2 ${v.track * (1 - v.place / 100)}`,
    `rp16 ${p}a16 ${p}a2 ${v.pullDown}`,
    `rb5 ${p}a30 ${p}a17 ${v.behind * (1 - ratio)}`,
    `rb6 ${p}a17 ${p}a2 ${v.behind * ratio}`,
    `rp17 ${p}a17 ${p}a2 ${v.pullDown}`,
    `vh ${p}k18 ${p}a2 5`,
    `rp18 ${p}k18 ${p}a18 ${v.pullUp}`,
  ];
  if (on) {
    lines.push(`rb ${p}a14 0 ${v.button}`);
    lines.push(`rdr ${p}k85 ${p}a2 ${v.driver}`);
    lines.push(`rhi ${p}a1 ${p}a23 ${v.high}`);
  }
  if (looped) {
    lines.push(`ib7 ${p}b ${p}r7 ${(4 + (16 * v.place) / 100) / 1000}`);
    lines.push(`rr7 ${p}r7 0 ${v.shunt}`);
  }
  if (open) lines.push(`rha ${p}a18 ${p}a2 ${v.hall}`);
  // Names of elements are made different from machine to machine.
  return lines.map(line => line.replace(/^(\S+)/, `$1${p}`));
}

/** Parts of the supply. A current without any slope has no place among conductances: that of a loop grows by a millionth a volt. */
const limit = 1e-9;
const limitWithLoop = 1e-5;

/** Points of the machine, with their nodes in the netlist. */
const points: readonly (readonly [point: string, node: string])[] = [
  ['F1.2', 'b'],
  ['A1.1', 'a1'],
  ['A1.2', 'a2'],
  ['K1.85', 'k85'],
  ['H1.1', 'h1'],
  ['H2.1', 'h2'],
  ['H3.1', 'a23'],
  ['A1.14', 'a14'],
  ['A1.16', 'a16'],
  ['A1.17', 'a17'],
  ['A1.18', 'a18'],
  ['A1.30', 'a30'],
];
const ofLoop = ['R7.1', 'r7'] as const;

it('relays, module pins, coded switches and sensors read as a general-purpose simulator has them', async () => {
  const simulate = await startSimulator();
  const worst = { plain: 0, looped: 0 };
  let compared = 0;
  for (let from = 0; from < machines; from += 25) {
    const cases = Array.from({ length: 25 }, (_, i) => {
      const seed = firstSeed + from + i;
      return { seed, v: valuesFrom(seed), on: i % 2 === 0, open: i % 3 === 0, looped: i % 5 === 0, p: `m${i}x` };
    });
    const answers = await simulate(cases.flatMap(netlist));
    for (const { seed, v, on, open, looped, p } of cases) {
      const view = systemOf(systemText(v, looped));
      const set = { ...(on && { S6: 'on' }), gate: open ? 'open' : 'shut' };
      for (const [point, node] of looped ? [...points, ofLoop] : points) {
        const at = {
          measure: 'voltage',
          red: point,
          black: 'GND-1',
          set,
          inputOhms: Number.POSITIVE_INFINITY,
        } as const;
        const ours = number(ask(view, at)).nominal;
        const theirs = answers.get(`v(${p}${node})`)!;
        const off = Math.abs(ours - theirs) / 12;
        expect(
          off,
          `seed ${seed}, ${point} with the button ${on ? 'held' : 'free'}: ${ours} and not ${theirs}`,
        ).toBeLessThan(looped ? limitWithLoop : limit);
        worst[looped ? 'looped' : 'plain'] = Math.max(worst[looped ? 'looped' : 'plain'], off);
        compared++;
      }
    }
  }
  const [plain, looped] = [worst.plain, worst.looped].map(off => off.toExponential(1));
  console.info(
    `${machines} machines, ${compared} voltages; worst difference ${plain} of the supply, ${looped} with a loop`,
  );
}, 120_000);
