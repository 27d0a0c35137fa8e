import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exact, within } from '../../server/src/base/ranged.ts';
import { diodeSegments, zenerSegments } from '../../server/src/circuit/curves/diode.ts';
import { coldOhms, lampCurve } from '../../server/src/circuit/curves/lamp.ts';
import { leakageSegments } from '../../server/src/circuit/curves/leakage.ts';
import { motorCurve } from '../../server/src/circuit/curves/motor.ts';
import { polylineSegments } from '../../server/src/circuit/curves/polyline.ts';
import type { Segment } from '../../server/src/circuit/network.ts';

/** Where a piece begins and ends, at nominal values: volts and amperes; without an end on that side, nothing. */
function endsOf(segment: Segment) {
  const at = (drop: number | undefined) => {
    if (segment.kind === 'open' || drop === undefined) return undefined;
    return { volts: segment.volts.nominal + drop, amps: drop / segment.ohms.nominal };
  };
  if (segment.kind === 'line') return { from: at(segment.fromV), to: at(segment.toV) };
  const open = (volts: number | undefined) => (volts === undefined ? undefined : { volts, amps: 0 });
  return { from: open(segment.fromV?.nominal), to: open(segment.toV?.nominal) };
}

/** Every piece ends where the next begins, all rise, and no end is missing but the outermost. */
function holdTogether(segments: readonly Segment[]) {
  segments.forEach((segment, i) => {
    const { from, to } = endsOf(segment);
    expect(from === undefined).toBe(i === 0);
    expect(to === undefined).toBe(i === segments.length - 1);
    if (segment.kind === 'line') expect(segment.ohms.low).toBeGreaterThan(0);
    if (from && to) expect(to.volts).toBeGreaterThan(from.volts);
    const next = segments[i + 1] && endsOf(segments[i + 1]!).from;
    if (!to || !next) return;
    expect(next.volts).toBeCloseTo(to.volts, 9);
    expect(next.amps).toBeCloseTo(to.amps, 9);
  });
}

/** The current at a voltage, by the piece that holds there. */
function ampsAt(segments: readonly Segment[], volts: number): number {
  const segment = segments.find(one => (endsOf(one).to?.volts ?? Number.POSITIVE_INFINITY) >= volts)!;
  return segment.kind === 'open' ? 0 : (volts - segment.volts.nominal) / segment.ohms.nominal;
}

const volts = fc.double({ min: 1, max: 60, noNaN: true });
const share = fc.double({ min: 0.01, max: 0.95, noNaN: true });

describe('the pieces of a curve hold together and rise', () => {
  it('of a lamp, whatever its rating', () => {
    fc.assert(
      fc.property(volts, fc.double({ min: 0.5, max: 200, noNaN: true }), share, (ratedV, powerW, cold) => {
        const ohms = (cold * ratedV ** 2) / powerW;
        holdTogether(lampCurve(ratedV, within(powerW, 0.1), within(ohms, 0.2)).segments);
      }),
    );
  });

  it('of a motor, whatever its rating', () => {
    fc.assert(
      fc.property(volts, fc.double({ min: 0.1, max: 100, noNaN: true }), share, (ratedV, amps, stalled) => {
        holdTogether(motorCurve(ratedV, within(amps, 0.1), within((stalled * ratedV) / amps, 0.2)).segments);
      }),
    );
  });

  it('of a table that rises', () => {
    const steps = fc.array(fc.record({ dv: fc.double({ min: 0.1, max: 9, noNaN: true }), di: share }), {
      minLength: 2,
    });
    fc.assert(
      fc.property(steps, found => {
        let [v, i] = [-5, -0.5];
        const points = found.map(({ dv, di }) => {
          v += dv;
          i += di;
          return { volts: v, amps: i };
        });
        const segments = polylineSegments(points);
        holdTogether(segments);
        for (const point of points) expect(ampsAt(segments, point.volts)).toBeCloseTo(point.amps, 9);
      }),
    );
  });

  it('of diodes and of a driver that leaks', () => {
    const forward = { volts: exact(0.7), ohms: exact(0.05) };
    holdTogether(diodeSegments(forward));
    holdTogether(zenerSegments(forward, { volts: exact(36), ohms: exact(2) }));
    holdTogether(leakageSegments({ low: 0, nominal: 1e-3, high: 2e-3 }));
  });
});

describe('published values', () => {
  const lampAmps = (at: number) => {
    // The part in series takes what it takes: the voltage across both is given by the current.
    const { seriesOhms, segments } = lampCurve(12, exact(21), coldOhms(12, exact(21)));
    let [low, high] = [0, at];
    for (let i = 0; i < 80; i++) {
      const middle = (low + high) / 2;
      if (middle + seriesOhms.nominal * ampsAt(segments, middle) < at) low = middle;
      else high = middle;
    }
    return ampsAt(segments, low);
  };

  it('a lamp takes its rated power, and over and under its voltage what rerating gives', () => {
    // Wikipedia, "Lamp rerating": the current changes as the voltage to the power of 0.55.
    expect(lampAmps(12)).toBeCloseTo(21 / 12, 9);
    for (const at of [6, 9, 10.5, 13.5, 14.4, 16]) {
      const published = (21 / 12) * (at / 12) ** 0.55;
      expect(Math.abs(lampAmps(at) / published - 1)).toBeLessThan(0.02);
    }
  });

  it('a lamp of 100 W for 120 V has 144 Ω lit and 9.5 Ω cold', () => {
    // Quoted in physicsforums 885068.
    const cold = coldOhms(120, exact(100));
    expect(120 ** 2 / 100).toBe(144);
    expect(cold.low).toBeLessThanOrEqual(9.6);
    expect(cold.high).toBeGreaterThan(9.5);
  });

  it('a lamp of 21 W for 12 V has 0.46 Ω to 0.69 Ω cold', () => {
    // A tenth to a fifteenth of V²/P (kfz-tech.de; Wikipedia quoted in physicsforums 885068).
    const cold = coldOhms(12, exact(21));
    expect([cold.low, cold.high]).toEqual([expect.closeTo(0.457, 3), expect.closeTo(0.686, 3)]);
  });
});
