import { bench, describe } from 'vitest';
import { exact } from '../../server/src/base/ranged.ts';
import { read } from '../../server/src/circuit/reading.ts';
import { solve } from '../../server/src/circuit/solve.ts';
import { vehicleNetwork } from '../support/vehicle-network.ts';

describe('a machine of 300 elements', () => {
  const { network, node } = vehicleNetwork();
  const ground = node('ground');

  bench('voltage at a load', () => {
    read(network, { measure: 'voltage', red: node('supply7'), black: ground, inputOhms: 10e6 });
  });
  bench('voltage on a sense line', () => {
    read(network, { measure: 'voltage', red: node('sense8'), black: ground, inputOhms: 10e6 });
  });
  bench('voltage drop on a ground wire', () => {
    read(network, { measure: 'voltage', red: node('return8'), black: ground, inputOhms: 10e6 });
  });
  bench('resistance of a load in the circuit', () => {
    read(network, {
      measure: 'resistance',
      red: node('supply7'),
      black: ground,
      leadsOhms: exact(0.2),
      overLimitOhms: 60e6,
    });
  });
  bench('current of a branch', () => {
    read(network, { measure: 'clamp', element: 'RWIRE7' });
  });
  bench('operating point of everything', () => {
    solve(network);
  });
});
