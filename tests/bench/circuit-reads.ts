import { read } from '../../server/src/circuit/reading.ts';
import { solve } from '../../server/src/circuit/solve.ts';
import { vehicleNetwork } from '../support/vehicle-network.ts';

/** Readings per second in a machine of 300 elements, each solved anew with the ends that the tolerances reach. */
export function circuitReads(): readonly (readonly [title: string, perSecond: number])[] {
  const { network, node } = vehicleNetwork();
  const black = node('ground');
  const voltage = (red: string) => () =>
    read(network, { measure: 'voltage', red: node(red), black, inputOhms: 10e6 }, {});
  return [
    ['voltage at a load', perSecond(voltage('supply7'))],
    ['voltage on a sense line', perSecond(voltage('sense8'))],
    ['voltage drop of a return', perSecond(voltage('return8'))],
    ['current of a branch', perSecond(() => read(network, { measure: 'clamp', element: 'RWIRE7' }, {}))],
    ['every voltage and current at nominal values', perSecond(() => solve(network))],
  ];
}

/** After a fifth of a second to warm up, counted for half a second. */
function perSecond(work: () => unknown): number {
  const run = (ms: number) => {
    const began = performance.now();
    let count = 0;
    for (; performance.now() - began < ms; count++) work();
    return (1000 * count) / (performance.now() - began);
  };
  run(200);
  return run(500);
}
