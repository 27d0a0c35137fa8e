/** How a conductor is built: one solid or a few thick wires (IEC 60228 class 1 and 2), or many fine ones (class 5 and 6). */
export type Strands = 'solid' | 'stranded';

/**
 * The largest resistance that IEC 60228:2004, tables 1 to 3, allows a plain copper conductor at 20 °C, in ohms per
 * kilometre by cross-section in mm². The standard fixes the resistance and not the area: a maker may draw less copper.
 */
export const maximumOhmsPerKm: Record<Strands, ReadonlyMap<number, number>> = {
  solid: new Map([
    [0.5, 36.0],
    [0.75, 24.5],
    [1, 18.1],
    [1.5, 12.1],
    [2.5, 7.41],
    [4, 4.61],
    [6, 3.08],
    [10, 1.83],
    [16, 1.15],
    [25, 0.727],
    [35, 0.524],
    [50, 0.387],
    [70, 0.268],
    [95, 0.193],
  ]),
  stranded: new Map([
    [0.5, 39.0],
    [0.75, 26.0],
    [1, 19.5],
    [1.5, 13.3],
    [2.5, 7.98],
    [4, 4.95],
    [6, 3.3],
    [10, 1.91],
    [16, 1.21],
    [25, 0.78],
    [35, 0.554],
    [50, 0.386],
    [70, 0.272],
    [95, 0.206],
  ]),
};
