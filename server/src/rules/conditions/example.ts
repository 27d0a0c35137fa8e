import { lampProcedure } from '../example.ts';

const system = `
#- /engine.system.yaml
format: 1
system: engine
title: Hour meter of a small engine
conditions:
  key: [off, run]
  engine:
    states: [stopped, running]
    needs: { running: { key: run } }
parts:
  G1:
    kind: battery
    voltage:
      - { when: { engine: stopped }, is: 12.6 V ± 0.4 V }
      - { when: { engine: running }, is: 14.1 V ± 0.4 V }
    internal resistance: 10 mΩ
  S1: { kind: switch, title: Key switch, closed: { key: run }, contact resistance: 20 mΩ }
  R1: { kind: resistor, title: Hour meter, resistance: 150 Ω ± 5 % }
wires:
  - W1: G1.+ to S1.1, 1.5 mm², 0.6 m, red
  - W2: S1.2 to R1.1, 0.75 mm², 1.2 m, yellow
  - W3: R1.2 to G1.-, 0.75 mm², 0.9 m, black
`;

/** A procedure on an engine that runs only while the key is on, for examples about conditions that need one another. */
export function engineProcedure(stepsAndEndings: string): string {
  return lampProcedure(stepsAndEndings).replace('lamp.system', 'engine.system') + system.replace(/^\n/, '');
}
