/** How often one way of failing happens, against 1 for an ordinary fault, and where that is from. */
export interface Weight {
  readonly likelihood: number;
  readonly likelihoodSource: string;
}

/**
 * Shares of the ways in which a part fails, in percent. Those of a named kind are failure-mode ratios of RAC FMD-91 as reprinted in
 * MIL-HDBK-338B section 7, all from memory but the one of the lead-acid battery (seen on a help page of reliability software);
 * kinds without a row borrow the nearest one. They weigh the faults of one part against each other, and all parts alike.
 */
const ratios = {
  relay: { 'fails to trip': 55, 'spurious trip': 26, short: 19 },
  'film resistor': { open: 59, 'parameter change': 36, short: 5 },
  'wirewound resistor': { open: 65, 'parameter change': 26, short: 9 },
  connector: { open: 61, 'poor contact': 23, short: 16 },
  'toggle switch': { open: 65, sticking: 19, short: 16 },
  'push-button': { open: 60, sticking: 20, short: 20 },
  fuse: { 'premature opening': 8 },
  breaker: { 'opens unasked': 51 },
  lamp: { 'no illumination': 67, 'loss of illumination': 33 },
  solenoid: { short: 52, open: 5 },
  thermistor: { open: 63, 'parameter change': 22, short: 15 },
  potentiometer: { open: 53, erratic: 40, short: 7 },
  'lead-acid battery': { degraded: 70, short: 20, intermittent: 10 },
} as const;

type Ratios = typeof ratios;

/** Half of the failures of one part count as an ordinary fault. */
const ordinary = 50;

/** The weight of one way of failing, shared by so many faults that are told apart here. */
export function weight<K extends keyof Ratios>(kind: K, mode: keyof Ratios[K] & string, sharedBy = 1): Weight {
  const percent = (ratios[kind] as Record<string, number>)[mode]!;
  const share = sharedBy === 1 ? '' : `, shared by ${sharedBy} faults`;
  const memory = kind === 'lead-acid battery' ? '' : ', from memory';
  return {
    likelihood: rounded(percent / sharedBy / ordinary),
    likelihoodSource: `MIL-HDBK-338B section 7: ${kind}, ${mode} ${percent} %${share}${memory}`,
  };
}

/** For what no table has. */
export function customary(likelihood: number): Weight {
  return { likelihood: rounded(likelihood), likelihoodSource: 'common practice, no source' };
}

export function rounded(likelihood: number): number {
  return Number(likelihood.toPrecision(3));
}
