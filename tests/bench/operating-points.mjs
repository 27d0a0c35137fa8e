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
Ends of readings in random networks of 4 to 33 nodes, every resistance with a tolerance; the gap as a part of the range
  up to     readings  reached exactly  gap of the others, median    worst`);
  for (const tolerance of [0.05, 0.3]) {
    const { readings, exact, median, worst } = gaps(300, tolerance);
    const percent = (part, width) => `${(100 * part).toFixed(2)} %`.padStart(width);
    const first = `±${100 * tolerance} %`.padEnd(8);
    console.log(
      `  ${first}${String(readings).padStart(10)}${percent(exact / readings, 17)}${percent(median, 26)}${percent(worst, 9)}`,
    );
  }
}
