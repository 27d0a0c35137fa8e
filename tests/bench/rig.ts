/**
 * An invented test rig: circuits of a fuse, a switch and a heater behind a plug, and a procedure with a section for each heater that stays
 * cold. Both grow with what is asked for.
 */
export function rigSystem(circuits: number, variants: number): string {
  const many = numbers(variants);
  return `format: 1
system: rig
title: Test rig
variants:
${many.map(v => `  v${v}: With leads of ${v} m`).join('\n')}
conditions:
  key: [off, run]
parts:
  G1: { kind: battery, voltage: 12.6 V ± 0.4 V, internal resistance: 10 mΩ }
${numbers(circuits)
  .map(
    n => `  F${n}: { kind: fuse, rating: 20 A, resistance: 5 mΩ }
  S${n}: { kind: switch, closed: { key: run }, contact resistance: 10 mΩ }
  H${n}: { kind: heater, resistance: 6 Ω ± 5 % }`,
  )
  .join('\n')}
connectors:
${numbers(circuits)
  .map(n => `  X${n}: { title: At heater ${n}, cavities: [1, 2], contact resistance: 5 mΩ }`)
  .join('\n')}
grounds:
  GND-1: { title: Frame, contact resistance: 3 mΩ }
splices:
  SP1: At the battery
wires:
  - W1: G1.+ to SP1, 16 mm², 0.5 m, red
  - W2: G1.- to GND-1, 16 mm², 0.5 m, black
${numbers(circuits)
  .map(n =>
    [
      `  - W${n}1: SP1 to F${n}.1, 2.5 mm², 0.4 m, red`,
      `  - W${n}2: F${n}.2 to S${n}.1, 2.5 mm², 1 m, red`,
      ...many.map(v => `  - W${n}3${v}: S${n}.2 to H${n}.1 through X${n}/1, 2.5 mm², ${v} m, yellow, only v${v}`),
      `  - W${n}4: H${n}.2 to GND-1 through X${n}/2, 2.5 mm², 0.6 m, black`,
    ].join('\n'),
  )
  .join('\n')}
`;
}

export function rigProcedure(circuits: number, steps: number): string {
  return `format: 1
procedure: rig
title: A heater stays cold
applies to: { rig.system.yaml: all }
starts from:
${numbers(circuits)
  .map(n => `  - { symptom: heater ${n} stays cold, start: at-${n}-1, set: { key: run }, when: { H${n}: off } }`)
  .join('\n')}
tools: [multimeter]
start: at-1-1
steps:
${numbers(circuits)
  .flatMap(n => numbers(steps).map(k => step(n, k, steps)))
  .join('\n')}
  confirm: { set: { key: run }, operate: Switch it on, then: { it gets warm: done, it stays cold: ask } }
endings:
${numbers(circuits)
  .map(n => `  mend-${n}: { mend: [F${n}, S${n}, H${n}, X${n}, W${n}1, W${n}2, W${n}4], confirm: confirm }`)
  .join('\n')}
  ask: { refer: Ask the maker of the rig }
  done: { repaired: The heater gets warm }
`;
}

/** Along the circuit from the supply to the ground, as often as there are steps; the harness is moved the while. */
function step(n: number, k: number, steps: number): string {
  const points = [
    `F${n}.1`,
    `F${n}.2`,
    `S${n}.1 (back-probe)`,
    `S${n}.2 (back-probe)`,
    `X${n}/1 (back-probe)`,
    `H${n}.1 (back-probe)`,
  ];
  const point = points[(k - 1) % points.length]!;
  const next = k < steps ? `at-${n}-${k + 1}` : 'ask';
  return `  at-${n}-${k}:
    title: Voltage of circuit ${n}, place ${k}
    minutes: 2
    set: { key: run }
    measure: voltage
    red: ${point}
    black: GND-1
    limits: at least 10 V
    provoke: { wiggle: [F${n}, S${n}, X${n}, W${n}1, W${n}2] }
    then: { within: ${next}, otherwise: mend-${n} }`;
}

function numbers(to: number): readonly number[] {
  return Array.from({ length: to }, (_, i) => i + 1);
}
