/** Prints how long it takes to walk every fault, how that grows, and what an edit of one step costs. */
export function printProofs({ proofs }) {
  console.log(`
Every fault of an invented rig walked through its procedure, hard and intermittent, over all tolerances; one thread
  variants  steps  faults  walks  cold ms  ms a walk  after an edit ms`);
  for (const { variants, steps, faults, walks, coldMs, editMs } of proofs()) {
    const cells = [variants, steps, faults, walks, coldMs.toFixed(0), (coldMs / walks).toFixed(2), editMs.toFixed(0)];
    const widths = [10, 7, 8, 7, 9, 11, 18];
    console.log(cells.map((cell, i) => String(cell).padStart(widths[i])).join(''));
  }
}
