/** What is edited: each makes, for the text at hand and a running number, one replacement inside one entry. */

/** Leaves the circuit as it is. */
export const titleOfStep = inEntry(
  '  switch-in-20:',
  /title: .*/,
  i => `title: Voltage behind the fuse, ${i} times tried`,
);
export const limitsOfStep = inEntry(
  '  fuse-20:',
  /limits: .*/,
  i => `limits: ${(10 + (i % 80) / 100).toFixed(2)} V .. 14.1 V`,
);
/** Puts the meter elsewhere. */
export const leadsOfStep = inEntry('  fuse-20:', /black: .*/, i => `black: GND-${1 + (i % 8)}`);
/** Another state of the machine at this step and at those behind it, up to the next that sets the switch. */
export const stateOfStep = inEntry('  fuse-20:', /S20: \w+/, i => `S20: ${i % 2 ? 'pressed' : 'released'}`);
/** Another state of the machine at this step and, as no later step sets it back, at all that follow. */
export const lastingState = inEntry(
  '  ask-20:',
  /minutes: .*(\n {4}set: .*)?/,
  i => `minutes: 3\n    set: { charger: ${i % 2 ? 'off' : 'on'} }`,
);
/** Another value of a part: every reading that it has a say in is another one. */
export const valueOfPart = inEntry('  E20:', /resistance: [\d.]+/, i => `resistance: ${(3 + i / 100).toFixed(2)}`);

function inEntry(key, pattern, write) {
  return (text, i) => {
    const from = text.indexOf(`\n${key}`);
    const found = pattern.exec(text.slice(from));
    if (from < 0 || !found) throw new Error(`there is no ${pattern} below ${key}`);
    const start = from + found.index;
    return { start, end: start + found[0].length, text: write(i) };
  };
}
