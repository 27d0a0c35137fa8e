/**
 * The resistance of a copper conductor at a temperature, as a multiple of that at 20 °C: `(230 + T) / 250`, the reciprocal
 * of the factor in the annex of IEC 60228. Meant for -60 °C to 250 °C; never below zero.
 */
export function copperFactor(temperatureC: number): number {
  return Math.max(0, (230 + temperatureC) / 250);
}

/**
 * The resistance of any metal at a temperature: `R · (1 + α · (T - T₀))`, for coils, lamps cold and motors. `perKelvin` is
 * the coefficient at the temperature where `ohms` holds; for annealed copper at 20 °C it is 0.00393 (IEC 60028, from memory).
 */
export function ohmsAtTemperature(ohms: number, atC: number, temperatureC: number, perKelvin = 0.00393): number {
  return Math.max(0, ohms * (1 + perKelvin * (temperatureC - atC)));
}
