/** A procedure about a lamp that stays dark, for examples in which only the steps and endings matter. */
export function lampProcedure(stepsAndEndings: string): string {
  return `
format: 1
procedure: lamp-dark
applies to: { lamp.system.yaml: all }
starts from: [{ symptom: lamp stays dark }]
start: look
${stepsAndEndings.replace(/^\n/, '')}`;
}
