/** `x · 10^power`, rounded once from the decimal digits, so that 680 thousandths are 0.68 and not 0.6800000000000001. */
export function shiftDecimal(x: number, power: number): number {
  if (!Number.isFinite(x)) return x;
  const [digits, exponent = '0'] = String(x).split('e');
  return Number(`${digits}e${Number(exponent) + power}`);
}

/** Drops floating-point residue: the nearest number with twelve significant digits. */
export function tidy(x: number): number {
  return Number.isFinite(x) ? Number(x.toPrecision(12)) : x;
}
