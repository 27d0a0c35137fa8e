/** Walks through a procedure about a lamp that stays dark. */
export function lampWalks(walks: string): string {
  return `
#- /lamp-dark.procedure.yaml
format: 1
procedure: lamp-dark
applies to: { lamp.system.yaml: all }
starts from: [{ symptom: lamp stays dark }]
start: look
steps:
  look: { inspect: [W4], then: { wire chafed: mend-W4, all sound: lamp-voltage } }
  lamp-voltage:
    set: { key: run }
    measure: voltage
    red: E1.1 (back-probe)
    black: GND-1
    limits: 11.8 V .. 13.1 V
    then: { within: replace-lamp, otherwise: feed-is-bad }
  try: { operate: Switch the lamp on, then: { bright: done, dark: look } }
endings:
  mend-W4: { mend: [W4], confirm: try }
  replace-lamp: { replace: [E1], confirm: try }
  feed-is-bad: { refer: Feed of the lamp switch }
  done: { repaired: The lamp is bright }
#- /lamp-dark.samples.yaml
format: 1
samples of: lamp-dark.procedure.yaml
${walks.replace(/^\n/, '')}`;
}
