/**
 * The diameter in millimetres of a solid wire of this gauge: `0.005 in · 92^((36 - n) / 39)`, with 1/0 as 0 and 4/0 as -3.
 * Source: ASTM B258, nominal diameters of AWG sizes of solid round wires.
 */
export function gaugeDiameterMm(gauge: number): number {
  return 0.127 * 92 ** ((36 - gauge) / 39);
}

/** The cross-section in mm² of a solid wire of this gauge. */
export function gaugeAreaMm2(gauge: number): number {
  return (Math.PI / 4) * gaugeDiameterMm(gauge) ** 2;
}
