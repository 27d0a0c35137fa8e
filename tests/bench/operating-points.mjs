import { Simulation } from 'eecircuit-engine';

/** Prints how fast and how near to a general-purpose simulator operating points are, and how near bounds are to what is reached. */
export async function printOperatingPoints({ compared, gaps }) {
  const simulator = new Simulation();
  await simulator.start();
  console.log(`
Operating points per second, beside ngspice (eecircuit-engine) in this process: one resistance changed, all voltages given
  nodes  elements     ours  with first  solved anew  ngspice .dc  ngspice .op    ratio   difference`);
  for (const nodes of [12, 50, 100, 200]) {
    const found = await compared(nodes, simulator);
    const numbers = [
      [found.nodes, 7],
      [found.elements, 10],
      [found.ours, 9],
      [found.oursFirst, 12],
      [found.oursAnew, 13],
      [found.sweep, 13],
      [found.single, 13],
    ].map(([value, width]) => value.toFixed(0).padStart(width));
    const ratio = `${(found.ours / found.sweep).toFixed(1)} ×`.padStart(9);
    console.log(`${numbers.join('')}${ratio}${found.worst.toExponential(1).padStart(13)}`);
    if (found.anew > 0) console.log(`         ${found.anew} of the points had to be solved anew`);
  }
  console.log(
    '  with first: preparing, and the first change of each resistance once. ratio: ours to the .dc sweep. asked: 20 ×, 1e-9',
  );

  console.log(`
Ends of readings in random networks, every resistance with a tolerance up to the one told; gap of the ends as a part of the range
  nodes    resistances  tolerance  readings  reached exactly  median gap of the others    worst`);
  for (const kind of [
    { networks: 300, mostNodes: 33, meshed: 0.5, tolerance: 0.1 },
    { networks: 300, mostNodes: 33, meshed: 1, tolerance: 0.3 },
    { networks: 40, mostNodes: 33, meshed: 3, tolerance: 0.5 },
  ]) {
    const { readings, exact, median, worst } = gaps(kind);
    const percent = (part, width) => `${(100 * part).toFixed(2)} %`.padStart(width);
    const others = exact === readings ? '-'.padStart(26) : percent(median, 26);
    console.log(
      `  4..${kind.mostNodes}${`${1 + kind.meshed} a node`.padStart(14)}${`±${100 * kind.tolerance} %`.padStart(11)}${String(readings).padStart(10)}` +
        `${percent(exact / readings, 17)}${others}${percent(worst, 9)}`,
    );
  }
}
