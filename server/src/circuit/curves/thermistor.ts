const zeroC = -273.15;

/**
 * The resistance in ohms of a thermistor that has `atOhms` at `atC`, by its B value in kelvin: `R₀ exp(B (1/T - 1/T₀))`. With one
 * B the curve fits over some 50 K around the known point to a few per cent (common practice, no source).
 */
export function betaOhms(celsius: number, atC: number, atOhms: number, betaK: number): number {
  return atOhms * Math.exp(betaK * (1 / (celsius - zeroC) - 1 / (atC - zeroC)));
}

/** Of `1/T = A + B ln R + C (ln R)³`, with T in kelvin and R in ohms. */
export interface SteinhartHart {
  readonly a: number;
  readonly b: number;
  readonly c: number;
}

/**
 * The resistance in ohms at a temperature: the one real root of the cubic, for `b` and `c` not below zero and one of them above,
 * as they are for every thermistor that falls with temperature. Nothing for other coefficients.
 */
export function steinhartHartOhms(celsius: number, { a, b, c }: SteinhartHart): number | undefined {
  const rest = a - 1 / (celsius - zeroC);
  if (!(b >= 0 && c >= 0 && b + c > 0)) return undefined;
  if (c === 0) return Math.exp(-rest / b);
  const [p, q] = [b / (3 * c), rest / (2 * c)];
  const root = Math.sqrt(q * q + p ** 3);
  // Of the two cube roots, whose product is p, the larger one is free of cancellation.
  const larger = Math.cbrt(Math.abs(q) + root);
  const ln = p / larger - larger;
  return Math.exp(q < 0 ? -ln : ln);
}
