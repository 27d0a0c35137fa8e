import type { Accuracy } from '../base/quantity/accuracy.ts';

/** The meter used, in SI units. What a file does not say is that of a common handheld meter. */
export interface Meter {
  readonly inputOhms: number;
  readonly voltage: Range;
  readonly resistance: Range & {
    readonly leadsOhms: number;
    readonly overLimitOhms: number;
    /** One for each range, or one for all. */
    readonly tests: readonly OhmTest[];
  };
  /** The burden of each range, or one for all. */
  readonly current: Range & { readonly burdensOhms: readonly number[] };
  readonly continuity: OhmTest & { readonly belowOhms: number };
  readonly testLamp: TestLamp;
}

/** One quantity of a meter that chooses its range by itself. */
export interface Range {
  /** Smallest step that the display shows in the lowest range; in a higher one it grows with the range. */
  readonly resolution: number;
  readonly accuracy: Accuracy;
  /** Upper ends, the lowest first; without any there is one range without an end. */
  readonly ranges: readonly number[];
}

/** What drives a resistance: volts at open leads, amperes at joined ones. */
export interface OhmTest {
  readonly openV: number;
  readonly shortA: number;
}

/** A lamp between two points, told by the voltage that is left across it. */
export interface TestLamp {
  readonly ohms: number;
  readonly litFromV: number;
  readonly dimFromV: number;
}

/**
 * A meter of 6,000 counts (common practice, no source). 10 MΩ is "a common amount for a modern digital voltmeter" (Lessons in Electric
 * Circuits, ch. 8); about 1 mA at 1.5 V open, and a continuity test below 50 Ω at 0.5 V open, are from the manual of a handheld meter.
 */
export const handheldMeter: Meter = {
  inputOhms: 10e6,
  voltage: { resolution: 0.001, accuracy: { ratio: 0.005, counts: 2 }, ranges: [6, 60, 600] },
  resistance: {
    resolution: 0.1,
    accuracy: { ratio: 0.008, counts: 2 },
    ranges: [600, 6e3, 60e3, 600e3, 6e6, 60e6],
    leadsOhms: 0.2,
    overLimitOhms: 60e6,
    tests: [{ openV: 1.5, shortA: 1e-3 }],
  },
  current: { resolution: 0.01, accuracy: { ratio: 0.01, counts: 3 }, ranges: [], burdensOhms: [0.01] },
  continuity: { belowOhms: 50, openV: 0.5, shortA: 1e-3 },
  // A lamp of 3 W at 12 V. It glows from a quarter of that and is bright from two thirds on: common practice, no source.
  testLamp: { ohms: 48, litFromV: 8, dimFromV: 3 },
};
