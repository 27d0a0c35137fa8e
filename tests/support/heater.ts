import { systemsByName } from './systems.ts';

/** A fuel heater behind a switch and a fuse. */
export const heaterSystem = systemsByName.get('heater.system.yaml')!;

/** Ends for every fault that leaves it cold at the one repair. */
export const heaterProcedure = `format: 1
procedure: heater-cold
title: Heater stays cold
applies to: { heater.system.yaml: all }
starts from: [{ symptom: heater stays cold, nature: hard, set: { key: run }, when: { H1: off } }]
start: try-it
steps:
  try-it:
    set: { key: run }
    operate: Try the heater
    then:
      stays cold: { go to: volts, when: { H1: off } }
      gets warm: { go to: fine, when: { H1: on } }
  volts:
    title: Voltage at the heater
    set: { key: run }
    measure: voltage
    red: H1.1 (back-probe)
    black: GND-1
    limits: from the circuit
    then: { within: repair, otherwise: repair }
endings:
  repair: { refer: Whoever mends heaters }
  fine: { no fault: The heater gets warm }
`;
