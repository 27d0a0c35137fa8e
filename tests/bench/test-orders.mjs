/** Prints how long the best order of tests takes to find, and how near to the bound it is where it is only a good one. */
export function printTestOrders({ orders }) {
  console.log(`
Order of tests of 1, 2 and 5 minutes for suspects by chance, 1.6 for each owner; mean minutes to an ending
  suspects  tests  found in ms  mean minutes  no order below`);
  for (const { suspects, tests, ms, minutes, lowerBound, optimal } of orders()) {
    const above = optimal ? 'the best' : `${(100 * (minutes / lowerBound - 1)).toFixed(1)} % above`;
    console.log(
      `${String(suspects).padStart(10)}${String(tests).padStart(7)}${ms.toFixed(0).padStart(13)}` +
        `${minutes.toFixed(3).padStart(14)}${lowerBound.toFixed(3).padStart(16)}   ${above}`,
    );
  }
}
