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
