import { exact, type Ranged, within } from '../../server/src/base/ranged.ts';
import { type Line, netlist } from './circuits.ts';

/**
 * An invented machine: a battery behind its resistance feeds forty fused branches through wires and connections, each to
 * a load and back through a ground wire; every fourth load is watched by a module that pulls a sense line up to 5 V.
 * 300 elements, nearly all with a tolerance.
 */
export function vehicleNetwork() {
  const lines: Line[] = [
    ['VB', 'cell', 'frame', { low: 12.2, nominal: 12.6, high: 14.4 }],
    ['RB', 'cell', 'post', within(0.012, 0.3)],
    ['RMAIN', 'post', 'bus', within(0.004, 0.1)],
    ['RSTRAP', 'frame', 'ground', within(0.002, 0.5)],
    ['RFEED', 'bus', 'module', within(0.03, 0.1)],
    ['RMG', 'module-ground', 'ground', within(0.015, 0.1)],
    ['RSELF', 'module', 'module-ground', within(60, 0.2)],
    ['V5', 'five', 'module-ground', within(5, 0.02)],
  ];
  for (let branch = 1; branch <= 40; branch++) {
    const load: Ranged = within(2 + branch, 0.1);
    lines.push(
      [`RFUSE${branch}`, 'bus', `fused${branch}`, within(0.008, 0.2)],
      [`RWIRE${branch}`, `fused${branch}`, `plug${branch}`, within(0.02 + branch / 1000, 0.05)],
      [`RPLUG${branch}`, `plug${branch}`, `supply${branch}`, { low: 0, nominal: 0.003, high: 0.02 }],
      [`RLOAD${branch}`, `supply${branch}`, `return${branch}`, load],
      [`RPIN${branch}`, `return${branch}`, `back${branch}`, exact(0.002)],
      [`RBACK${branch}`, `back${branch}`, 'ground', within(0.015, 0.05)],
    );
    if (branch % 4 === 0) {
      lines.push([`RPULL${branch}`, 'five', `sense${branch}`, within(10_000, 0.01)]);
      lines.push([`RSENSE${branch}`, `sense${branch}`, `line${branch}`, within(0.05, 0.05)]);
      lines.push([`RSENSOR${branch}`, `line${branch}`, `return${branch}`, within(2_200, 0.05)]);
      lines.push([`RFILTER${branch}`, `sense${branch}`, 'module-ground', within(470_000, 0.05)]);
    }
  }
  for (let spare = lines.length; spare < 300; spare++) {
    lines.push([`RSTAND${spare}`, 'bus', 'ground', within(5_000 + spare, 0.1)]);
  }
  return netlist(lines);
}
