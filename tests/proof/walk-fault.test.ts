import { describe, expect, it } from 'vitest';
import type { Nature } from '../../server/src/model/procedure.ts';
import { waysIn } from '../../server/src/proof/entries.ts';
import { type FaultWalk, walkFault } from '../../server/src/proof/walk-fault.ts';
import { patientOn, procedureOn } from './support.ts';

function walked(text: string, fault?: string, nature: Nature = 'hard'): FaultWalk {
  const patient = patientOn(procedureOn(text), fault, nature);
  const [way] = waysIn(patient);
  return walkFault(patient, way!.start, way!.ready);
}

/** `wrong part at replace-R1`, and where somebody was looked for the machine that comes to it. */
function worst(...asked: Parameters<typeof walked>): string {
  const { worst: one } = walked(...asked);
  const at = one.end.kind === 'ending' ? one.end.name : `${one.end.at}: ${one.end.why}`;
  return `${one.result} at ${at}${one.isUndecided ? ', undecided' : ''}${one.specimen ? `, on ${one.specimen.key}` : ''}`;
}

const endings = `
endings:
  good: { no fault: Nothing was found }
  replace-R1: { replace: [R1] }
  replace-R2: { replace: [R2] }
  mend-wires: { mend: [W3, W4, W5] }
`;
const measuring = (limits: string, then: string, set = 'key: run') =>
  `steps: { look: { set: { ${set} }, measure: voltage, red: R2.1, black: GND-1, limits: ${limits}, then: { ${then} } } }${endings}`;

describe('a walk on which all machines go one way', () => {
  // R2 has 4.95 V to 7.15 V, and with R1 open none.
  const tested = measuring('4.5 V .. 7.5 V', 'within: good, below: replace-R1, above: replace-R2');

  it('ends there', () => {
    expect(worst(tested)).toBe('right at good');
    expect(worst(tested, 'R1 open')).toBe('right at replace-R1');
    expect(worst(tested, 'R2 open')).toBe('right at replace-R2');
    expect(worst(tested, 'W3 open')).toBe('wrong part at replace-R1');
  });

  it('finds nothing where the fault does not show itself', () => {
    // 12 V · 130 / 230 is 6.78 V, and 13 V · 143 / 233 at most 7.98 V.
    expect(worst(measuring('4.5 V .. 8.5 V', 'within: good, otherwise: replace-R2'), 'R2 drifted')).toBe(
      'not found at good',
    );
    expect(worst(tested, 'W3 open', 'intermittent')).toBe('not found at good');
  });

  it('names every end that is left', () => {
    const { ends, unproved } = walked(tested, 'R2 open');
    expect([ends.map(({ result, end }) => [result, end.kind]), unproved]).toEqual([[['right', 'ending']], []]);
  });
});

describe('a walk on which the tolerances decide', () => {
  it('names a machine that comes to the bad end', () => {
    // 5.5 V lies between 4.95 V and 7.15 V: with the supply and R2 at their low ends and R1 at its high one R2 has less.
    const text = measuring('5.5 V .. 7.5 V', 'within: good, otherwise: replace-R1');
    expect(worst(text)).toBe('wrong part at replace-R1, undecided, on G1@-1,R2@-1,R1@1');
  });

  it('takes the machine through all steps', () => {
    // The same voltage twice: no machine is below 5.5 V first and above 6.5 V then.
    const twice = (limits: string) => `
steps:
  look: { set: { key: run }, measure: voltage, red: R2.1, black: GND-1, limits: at least 5.5 V, then: { within: good, otherwise: again } }
  again: { measure: voltage, red: R2.1, black: GND-1, limits: ${limits}, then: { within: good, otherwise: replace-R1 } }
${endings}`;
    expect(worst(twice('at most 6.5 V'))).toBe('right at good, on nominal');
    const { unproved } = walked(twice('at most 6.5 V'));
    expect(unproved.map(({ result }) => result)).toEqual(['wrong part']);
    expect(worst(twice('at least 5.4 V'))).toMatch(/^wrong part at replace-R1, undecided/);
  });

  it('counts the error of the meter', () => {
    // 0.5 % of 7.15 V and 2 steps of 10 mV: 7.2 V may be shown, 7.21 V may not.
    expect(worst(measuring('4.5 V .. 7.2 V', 'within: good, otherwise: replace-R1'))).toMatch(/^wrong part/);
    expect(worst(measuring('4.5 V .. 7.21 V', 'within: good, otherwise: replace-R1'))).toBe('right at good');
  });
});

describe('a walk that comes to no end', () => {
  it('stands still where no branch takes what is shown', () => {
    const text = measuring('4.5 V .. 7.5 V', 'within: good, above: replace-R2');
    expect(worst(text, 'W3 open')).toBe('stuck at look: No branch takes `0 V`');
  });

  it('stands still where resistance is measured on a live circuit', () => {
    const ohms = (key: string) =>
      `steps: { look: { set: { key: ${key} }, measure: resistance, red: R2.1, black: R2.2, limits: 80 Ω .. 120 Ω, then: { within: good, otherwise: replace-R2 } } }${endings}`;
    expect(worst(ohms('run'))).toMatch(/^stuck at look: G1 drives current/);
    expect(worst(ohms('off'))).toBe('right at good');
    // The switch no longer opens.
    expect(worst(ohms('off'), 'S1 stuck closed')).toMatch(/^stuck at look: G1 drives current/);
  });

  it('stands still where what a step needs does not hold', () => {
    const text = `
steps:
  look: { do: Look, then: measured }
  measured: { needs: { key: run }, measure: voltage, red: R2.1, black: GND-1, limits: 4 V .. 8 V, then: { within: good, otherwise: replace-R1 } }
${endings}`;
    expect(worst(text)).toBe('stuck at measured: What it needs does not hold');
  });

  it('goes round for ever', () => {
    const round = (otherwise: string) => `
steps:
  look: { do: Begin, then: first }
  first: { set: { key: run }, measure: voltage, red: R2.1, black: GND-1, limits: 4 V .. 8 V, then: { within: good, otherwise: second } }
  second: { do: Try again, then: ${otherwise} }
${endings}`;
    expect(worst(round('first'), 'W3 open')).toBe('stuck at second: It goes round for ever');
    expect(worst(round('replace-R1'), 'W3 open')).toBe('wrong part at replace-R1');
  });

  it('goes round on some machines only', () => {
    const text = measuring('5.5 V .. 7.5 V', 'within: good, otherwise: look');
    expect(worst(text)).toMatch(/^stuck at look: It goes round for ever, undecided, on G1@-1/);
  });

  it('may be left by an answer, and then is none', () => {
    const text = `steps: { look: { ask: Again?, then: { yes: look, no: good } } }${endings}`;
    expect(worst(text)).toBe('right at good');
  });

  it('is unknown where a branch leads to what is not there', () => {
    expect(worst(`steps: { look: { do: Look, then: nowhere } }${endings}`)).toBe(
      'unknown at nowhere: No step or ending is called `nowhere`',
    );
  });
});

describe('a walk that is longer than any that a person wrote', () => {
  const steps = (last: string) => {
    const ways = Array.from({ length: 5_100 }, (_, i) => `  s${i}: { do: Go on, then: s${i + 1} }`);
    return `start: s0\nsteps:\n${ways.join('\n')}\n  s5100: { do: Go on, then: ${last} }${endings}`;
  };

  it('is unknown from where it is not followed', () => {
    const long = steps('good').replace('start: s0', 'starts from: [{ symptom: It does not work, start: s0 }]');
    expect(worst(long, 'R1 open')).toBe('unknown at s4999: More ways lead here than are followed');
  });
});

describe('a walk on which an answer decides that nothing tells', () => {
  const asked = (yes: string, no: string) =>
    `steps: { look: { ask: Is it warm?, then: { yes: ${yes}, no: ${no} } } }${endings}`;

  it('is bad only if every answer is', () => {
    expect(worst(asked('replace-R1', 'replace-R2'), 'W3 open')).toMatch(/^wrong part at replace-R/);
    expect(worst(asked('mend-wires', 'replace-R2'), 'W3 open')).toBe('several at mend-wires, on nominal');
    const { unproved } = walked(asked('mend-wires', 'replace-R2'), 'W3 open');
    expect(unproved.map(({ result }) => result)).toEqual(['wrong part']);
  });
});

describe('what stays from step to step', () => {
  it('is a fuse that a fault has blown, also when the fault has gone', () => {
    // The short is felt while W3 is moved; then the breaker stays open.
    const text = `
steps:
  look: { set: { key: run }, provoke: { wiggle: [W3] }, measure: voltage, red: R1.1, black: GND-1, limits: 10 V .. 14 V, then: { within: good, otherwise: again } }
  again: { measure: voltage, red: F1.2, black: GND-1, limits: 10 V .. 14 V, then: { within: good, otherwise: mend-wires } }
${endings}`;
    expect(worst(text, 'W3 short to ground', 'intermittent')).toBe('several at mend-wires');
    expect(worst(text, 'W3 open', 'intermittent')).toBe('not found at good');
  });

  it('is what is apart', () => {
    const text = (then: string) => `
steps:
  look: { set: { key: run }, remove: [F1], do: Take the breaker out, then: ${then} }
  back: { refit: [F1], do: Put it back, then: again }
  again: { measure: voltage, red: R2.1, black: GND-1, limits: 4.5 V .. 7.5 V, then: { within: good, otherwise: replace-R1 } }
${endings}`;
    expect(worst(text('again'))).toBe('wrong part at replace-R1');
    expect(worst(text('back'))).toBe('right at good');
  });
});
