import { measure } from './measure.ts';
import { type Parsed, parsing, quote, splice } from './problem.ts';
import { parseShape } from './shape.ts';

/**
 * The size of a conductor. The gauge is that of ASTM B258 as a whole number: 1/0 is 0, 2/0 is -1, 4/0 is -3. The
 * cross-section of a gauge is `gaugeAreaMm2` of the conductor tables.
 */
export type WireSize = { readonly areaMm2: number } | { readonly gauge: number };

/** Reads `0.75 mm²`, `0.75 mm2`, `18 AWG`, `AWG 18`, `2/0 AWG`. */
export function parseWireSize(text: string): Parsed<WireSize> {
  return parsing(text, candidate => (/awg/i.test(candidate) ? parseGauge(candidate) : parseArea(candidate)));
}

function parseGauge(text: string): Parsed<WireSize> {
  const written = /^\s*(?:AWG\s*#?\s*([\d/]+)|#?([\d/]+)\s*AWG)\s*$/i.exec(text);
  const gauge = gaugeOf(written?.[1] ?? written?.[2]);
  if (gauge === undefined) return noGauge(text);
  return { value: { gauge } };
}

/** `18` is itself; `2/0` and `00` count downwards from 1/0, which is gauge 0. */
function gaugeOf(written: string | undefined): number | undefined {
  if (written === undefined) return undefined;
  const oughts = /^([1-4])\/0$/.exec(written)?.[1] ?? (/^0{1,4}$/.test(written) ? written.length : undefined);
  if (oughts !== undefined) return 1 - Number(oughts);
  return /^[1-9]\d?$/.test(written) && Number(written) <= 40 ? Number(written) : undefined;
}

function noGauge(text: string): Parsed<WireSize> {
  const start = Math.max(0, text.search(/\S/));
  return {
    problem: {
      id: 'unknown-wire-size',
      message: `${quote(text)} is not a wire gauge`,
      detail: 'Gauges run from 4/0 AWG, the thickest, over 1/0 AWG and 1 AWG to 40 AWG.',
      help: 'Write the gauge as `18 AWG` or `2/0 AWG`, or the cross-section as `0.75 mm²`.',
      start,
      end: text.trimEnd().length,
    },
  };
}

function parseArea(text: string): Parsed<WireSize> {
  const shape = parseShape(text);
  if (shape.problem) return shape;
  if (shape.value.is !== 'one') return oneSize(text);
  const { amount } = shape.value;
  if (!amount.unit) return bareSize(text, amount.numberEnd);
  const area = measure(text, amount, 'area');
  if (area.problem) return area;
  const areaMm2 = Number((area.value.value * 1e6).toPrecision(12));
  return areaMm2 > 0 ? { value: { areaMm2 } } : oneSize(text);
}

/** A bare number may be square millimetres or a gauge; with a decimal sign it can only be the first. */
function bareSize(text: string, numberEnd: number): Parsed<WireSize> {
  const written = text.slice(0, numberEnd).trim();
  const areaOnly = /[.,]/.test(written);
  return {
    problem: {
      id: 'missing-unit',
      message: `The unit is missing after ${quote(written)}`,
      detail: areaOnly
        ? 'The size of a wire is a cross-section or a gauge.'
        : 'It may be square millimetres or a gauge.',
      help: areaOnly
        ? `Write \`${written} mm²\`.`
        : `Write \`${written} mm²\` or \`${written} AWG\`, whichever is meant.`,
      start: text.indexOf(written),
      end: numberEnd,
      suggestion: areaOnly ? splice(text, numberEnd, numberEnd, ' mm²') : undefined,
    },
  };
}

function oneSize(text: string): Parsed<WireSize> {
  return {
    problem: {
      id: 'unknown-wire-size',
      message: `${quote(text)} is not the size of a wire`,
      detail: 'The size of a wire is its cross-section or its gauge.',
      help: 'Write one size, for example `0.75 mm²` or `18 AWG`.',
      start: 0,
      end: text.length,
    },
  };
}
