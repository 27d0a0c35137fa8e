/** A procedure for a heater that stays cold because something is wrong all the time, for examples of what a proof finds. */
export function coldHeater(stepsAndEndings: string): string {
  return `
format: 1
procedure: heater-cold
applies to: { heater.system.yaml: all }
starts from: [{ symptom: heater stays cold, nature: hard, set: { key: run }, when: { H1: off } }]
start: look
${stepsAndEndings.replace(/^\n/, '')}`;
}

/** One in which nothing is found, whatever is wrong with the heater. */
export const soundHeater = coldHeater(`
steps:
  look:
    title: Voltage across the heater
    set: { key: run }
    measure: voltage
    red: H1.1 (back-probe)
    black: H1.2 (back-probe)
    limits: at least 10 V
    then: { within: current, otherwise: around-it }
  current:
    title: Current of the heater
    needs: { key: run }
    measure: current
    around: W3
    limits: above 1 A
    then: { within: not-found, otherwise: the-heater }
  confirm: { operate: Switch the heater on, then: { it gets warm: done, it stays cold: look } }
endings:
  around-it: { mend: [G1, W1, F1, W2, S1, W3, W5, X1, W4, H1], confirm: confirm }
  the-heater: { mend: [H1, W3, W4], confirm: confirm }
  not-found: { no fault: The heater has its current }
  done: { repaired: The heater gets warm }
`);

/** The sound one but for these changes: something that stands there once, and what stands there instead. */
export function heaterBut(...changes: readonly (readonly [here: string, becomes: string])[]): string {
  return changes.reduce((text, [here, becomes]) => text.replace(here, () => becomes), soundHeater);
}

/** A limit below what a bad contact leaves of the current. */
export const heaterWithLowLimit = heaterBut(
  [
    'limits: above 1 A\n',
    `limits: above 0.5 A
#           ^^^^^^^^^^^ information limit-could-separate: A limit of 900 mA would tell \`H1.1 high resistance\` apart here [fix]
`,
  ],
  [
    'within: not-found, otherwise: the-heater }\n',
    `within: not-found, otherwise: the-heater }
#                   ^^^^^^^^^ warning fault-not-found: 2 faults end here as if nothing were wrong, first \`H1.1 high resistance\`
`,
  ],
);
