import { describe, expect, test } from 'vitest';
import { parseAccuracy } from '../../server/src/base/quantity/accuracy.ts';
import type { Dimension } from '../../server/src/base/quantity/dimension.ts';
import { formatLimit, type Limit, parseLimit } from '../../server/src/base/quantity/limit.ts';
import type { Parsed } from '../../server/src/base/quantity/problem.ts';
import { parseQuantity } from '../../server/src/base/quantity/quantity.ts';
import { parseRanged } from '../../server/src/base/quantity/ranged-text.ts';
import { parseWireSize } from '../../server/src/base/quantity/wire-size.ts';

describe('one value', () => {
  // Conversion factors: NIST SP 811, appendix B.8 (from memory): 1 in = 0.0254 m, 1 psi = 6894.757 Pa, 1 inHg = 3386.389 Pa.
  test.each<[string, Dimension, number]>([
    ['12.6 V', 'voltage', 12.6],
    ['12,6 V', 'voltage', 12.6],
    ['12.6V', 'voltage', 12.6],
    ['-0.5 V', 'voltage', -0.5],
    ['−0.5 V', 'voltage', -0.5],
    ['350 mV', 'voltage', 0.35],
    ['12 VDC', 'voltage', 12],
    ['12 V DC', 'voltage', 12],
    ['1.5 volts', 'voltage', 1.5],
    ['4.7 kΩ', 'resistance', 4700],
    ['4.7 k\u2126', 'resistance', 4700],
    ['4,7 kΩ', 'resistance', 4700],
    ['4.7 KΩ', 'resistance', 4700],
    ['4.7 kohm', 'resistance', 4700],
    ['4.7 kilohms', 'resistance', 4700],
    ['4.7 k', 'resistance', 4700],
    ['10 mΩ', 'resistance', 0.01],
    ['10 MΩ', 'resistance', 1e7],
    ['680R', 'resistance', 680],
    ['680 ohms', 'resistance', 680],
    ['1,234.5 Ω', 'resistance', 1234.5],
    ['1.234,5 Ω', 'resistance', 1234.5],
    ['22 600 Ω', 'resistance', 22600],
    ['1,234,567 Ω', 'resistance', 1234567],
    ['0,123 Ω', 'resistance', 0.123],
    ['1.2e3 Ω', 'resistance', 1200],
    ['.5 Ω', 'resistance', 0.5],
    ['120 mA', 'current', 0.12],
    ['5 µA', 'current', 5e-6],
    ['5 \u03bcA', 'current', 5e-6],
    ['5 uA', 'current', 5e-6],
    ['21 W', 'power', 21],
    ['2.4 m', 'length', 2.4],
    ['1 in', 'length', 0.0254],
    ['0.75 mm²', 'area', 0.75e-6],
    ['0.75 mm2', 'area', 0.75e-6],
    ['0.75 sq mm', 'area', 0.75e-6],
    ['25 °C', 'temperature', 25],
    ['25 C', 'temperature', 25],
    ['-40 °F', 'temperature', -40],
    ['77 degF', 'temperature', 25],
    ['298.15 K', 'temperature', 25],
    ['3380 K', 'temperature difference', 3380],
    ['500 ms', 'time', 0.5],
    ['4 min', 'time', 240],
    ['300 kPa', 'pressure', 300e3],
    ['3 bar', 'pressure', 300e3],
    ['1 psi', 'pressure', 6894.75729317],
    ['10 %', 'ratio', 0.1],
    ['100 ppm', 'ratio', 1e-4],
    ['850 rpm', 'rotation', 850],
    ['36 km/h', 'speed', 10],
    ['24.7 mΩ/m', 'resistance per length', 0.0247],
    ['20.95 Ω/km', 'resistance per length', 0.02095],
    ['2 V/s', 'voltage rate', 2],
    ['100 nF', 'capacitance', 1e-7],
    ['70 Ah', 'charge', 252000],
    ['25 Nm', 'torque', 25],
    ['3', 'number', 3],
  ])('`%s`', (text, dimension, value) => {
    expect(parseQuantity(text, dimension)).toEqual({ value: { value, dimension } });
  });

  // IEC 60062:2016, letter and digit code for resistance and capacitance values (from memory).
  test.each<[string, Dimension, number]>([
    ['R47', 'resistance', 0.47],
    ['4R7', 'resistance', 4.7],
    ['4K7', 'resistance', 4700],
    ['4k7', 'resistance', 4700],
    ['2M2', 'resistance', 2.2e6],
    ['3n3', 'capacitance', 3.3e-9],
    ['4µ7', 'capacitance', 4.7e-6],
  ])('letter code `%s`', (text, dimension, value) => {
    expect(parseQuantity(text, dimension)).toEqual({ value: { value, dimension } });
  });
});

describe('a value with its tolerance', () => {
  test.each<[string, Dimension, [number, number, number]]>([
    ['12.6 V', 'voltage', [12.6, 12.6, 12.6]],
    ['12.6 V ± 0.4 V', 'voltage', [12.2, 12.6, 13]],
    ['12.6 V ± 400 mV', 'voltage', [12.2, 12.6, 13]],
    ['12.6 ± 0.4 V', 'voltage', [12.2, 12.6, 13]],
    ['12.6 V +/- 0.4 V', 'voltage', [12.2, 12.6, 13]],
    ['12.6 V+-0.4 V', 'voltage', [12.2, 12.6, 13]],
    ['5 V ± 2 %', 'voltage', [4.9, 5, 5.1]],
    ['-5 V ± 10 %', 'voltage', [-5.5, -5, -4.5]],
    ['4.7 kΩ ± 5 %', 'resistance', [4465, 4700, 4935]],
    ['4k7 ± 5%', 'resistance', [4465, 4700, 4935]],
    ['4.7 kΩ +10 % / -5 %', 'resistance', [4465, 4700, 5170]],
    ['4.7 kΩ -5 % / +10 %', 'resistance', [4465, 4700, 5170]],
    ['4.7 kΩ +10%/-5%', 'resistance', [4465, 4700, 5170]],
    ['4.7 kΩ +10 / -5 %', 'resistance', [4465, 4700, 5170]],
    ['12.6 V +0.4 V / -0.2 V', 'voltage', [12.4, 12.6, 13]],
    ['4.71 V .. 4.93 V', 'voltage', [4.71, 4.82, 4.93]],
    ['4.71..4.93 V', 'voltage', [4.71, 4.82, 4.93]],
    ['-0.3 V .. 0.3 V', 'voltage', [-0.3, 0, 0.3]],
    ['680 Ω .. 1.2 kΩ', 'resistance', [680, 940, 1200]],
    ['12.6 V (9 V .. 16 V)', 'voltage', [9, 12.6, 16]],
    ['12.6 V (9 .. 16 V)', 'voltage', [9, 12.6, 16]],
    ['25 °C ± 2 K', 'temperature', [23, 25, 27]],
    ['25 °C ± 2 °C', 'temperature', [23, 25, 27]],
    ['77 °F ± 9 °F', 'temperature', [20, 25, 30]],
    ['50 % ± 5 %', 'ratio', [0.45, 0.5, 0.55]],
  ])('`%s`', (text, dimension, [low, nominal, high]) => {
    expect(parseRanged(text, dimension)).toEqual({ value: { low, nominal, high, dimension } });
  });
});

describe('a limit', () => {
  const limit = (low: number, high: number, more: Partial<Limit> = {}): Limit => ({
    low,
    high,
    lowOpen: false,
    highOpen: false,
    overLimit: high === Infinity,
    dimension: 'voltage',
    ...more,
  });

  test.each<[string, Limit]>([
    ['4.71 V .. 4.93 V', limit(4.71, 4.93)],
    ['12.6 V ± 0.4 V', limit(12.2, 13)],
    ['12.6 V (9 V .. 16 V)', limit(9, 16)],
    ['below 0.3 V', limit(-Infinity, 0.3, { highOpen: true })],
    ['< 0.3 V', limit(-Infinity, 0.3, { highOpen: true })],
    ['at most 0.3 V', limit(-Infinity, 0.3)],
    ['<= 0.3 V', limit(-Infinity, 0.3)],
    ['≤ 0.3 V', limit(-Infinity, 0.3)],
    ['above 4.4 V', limit(4.4, Infinity, { lowOpen: true })],
    ['> 4.4 V', limit(4.4, Infinity, { lowOpen: true })],
    ['at least 4.4 V', limit(4.4, Infinity)],
    ['>= 4.4 V', limit(4.4, Infinity)],
    ['≥4.4V', limit(4.4, Infinity)],
    ['> 1 MΩ', limit(1e6, Infinity, { lowOpen: true, dimension: 'resistance' })],
    ['OL', limit(Infinity, Infinity, { dimension: 'resistance' })],
  ])('`%s`', (text, value) => {
    expect(parseLimit(text)).toEqual({ value });
    expect(parseLimit(formatLimit(value), value.dimension)).toEqual({ value });
  });

  test('a plain number may be one value', () => {
    expect(parseLimit('3', 'number').value).toMatchObject({ low: 3, high: 3 });
  });

  test('minutes are not a minimum', () => {
    expect(parseLimit('at most 5 min').value).toMatchObject({ high: 300, dimension: 'time' });
  });
});

describe('the size of a wire', () => {
  test.each([
    ['0.75 mm²', { areaMm2: 0.75 }],
    ['0,75 mm2', { areaMm2: 0.75 }],
    ['2.5 sq mm', { areaMm2: 2.5 }],
    ['18 AWG', { gauge: 18 }],
    ['AWG 18', { gauge: 18 }],
    ['18awg', { gauge: 18 }],
    ['1/0 AWG', { gauge: 0 }],
    ['2/0 AWG', { gauge: -1 }],
    ['0000 AWG', { gauge: -3 }],
  ])('`%s`', (text, value) => {
    expect(parseWireSize(text)).toEqual({ value });
  });
});

describe('the accuracy of a meter', () => {
  test.each([
    ['0.5 % + 2', { ratio: 0.005, counts: 2 }],
    ['±(0.5% + 2 counts)', { ratio: 0.005, counts: 2 }],
    ['0.8 % of reading + 3 digits', { ratio: 0.008, counts: 3 }],
    ['1 %', { ratio: 0.01, counts: 0 }],
  ])('`%s`', (text, value) => {
    expect(parseAccuracy(text)).toEqual({ value });
  });
});

describe('what is wrong is said at the token that is wrong', () => {
  const voltage = (text: string) => parseRanged(text, 'voltage');
  const resistance = (text: string) => parseRanged(text, 'resistance');
  const temperature = (text: string) => parseRanged(text, 'temperature');
  const single = (text: string) => parseQuantity(text, 'voltage');

  const slips: [string, (text: string) => Parsed<unknown>, string, string, string?][] = [
    ['4.7', voltage, 'missing-unit', '4.7', '4.7 V'],
    ['4.71 .. 4.93', voltage, 'missing-unit', '4.71', '4.71 V .. 4.93 V'],
    ['4.71 V .. 4.93', voltage, 'missing-unit', '4.93', '4.71 V .. 4.93 V'],
    ['12.6 V ± 0.4', voltage, 'missing-unit', '0.4'],
    ['4.7 kΩ', voltage, 'wrong-unit', 'kΩ'],
    ['4.7 V', resistance, 'wrong-unit', 'V'],
    ['4.7 kΩ ± 2 V', resistance, 'wrong-unit', 'V'],
    ['4.7 voltz', voltage, 'unknown-unit', 'voltz', '4.7 V'],
    ['4.7 xyz', voltage, 'unknown-unit', 'xyz'],
    ['4.7 mv', voltage, 'unit-case', 'mv', '4.7 mV'],
    ['4.7 MV', voltage, 'unit-case', 'MV', '4.7 mV'],
    ['4.7 v', voltage, 'unit-case', 'v', '4.7 V'],
    ['680 OHM', resistance, 'unit-case', 'OHM', '680 ohm'],
    ['680 MOHM', resistance, 'unit-case', 'MOHM'],
    ['1,234 Ω', resistance, 'ambiguous-number', '1,234'],
    ['1.2.3 V', voltage, 'unreadable-number', '1.2.3'],
    ['12. V', voltage, 'unreadable-number', '12.', '12 V'],
    ['9e999 V', voltage, 'unreadable-number', '9e999'],
    ['9e307 kV', voltage, 'unreadable-number', '9e307'],
    ['', voltage, 'missing-value', ''],
    ['short', voltage, 'missing-value', 'short'],
    ['12.6 V ±', voltage, 'missing-value', '±'],
    ['4.71 V - 4.93 V', voltage, 'range-mark', '-', '4.71 V .. 4.93 V'],
    ['4.71–4.93 V', voltage, 'range-mark', '–', '4.71 .. 4.93 V'],
    ['4.71 V to 4.93 V', voltage, 'range-mark', 'to', '4.71 V .. 4.93 V'],
    ['4.71 V ... 4.93 V', voltage, 'range-mark', '...', '4.71 V .. 4.93 V'],
    ['between 4.71 V and 4.93 V', voltage, 'range-mark', 'between', '4.71 V .. 4.93 V'],
    ['4.93 V .. 4.71 V', voltage, 'inverted-range', '4.93 V', '4.71 V .. 4.93 V'],
    ['4.93 V - 4.71 V', voltage, 'range-mark', '-', '4.71 V .. 4.93 V'],
    ['680 .. 1.2 kΩ', resistance, 'inverted-range', '680'],
    ['4.7 V .. 4.7 V', voltage, 'empty-range', '4.7 V .. 4.7 V', '4.7 V'],
    ['4.7 V .. 4.7 V', parseLimit, 'empty-range', '4.7 V .. 4.7 V'],
    ['4.71 V ..', parseLimit, 'missing-end', '..', 'at least 4.71 V'],
    ['.. 4.93 V', parseLimit, 'missing-end', '..', 'at most 4.93 V'],
    ['5 V +0.4 V', voltage, 'missing-end', '+0.4 V', '5 V +0.4 V / -0 V'],
    ['17 V (9 V .. 16 V)', voltage, 'nominal-outside-range', '17 V'],
    ['12.6 V (9 V .. 16 V', voltage, 'unexpected-text', '16 V', '12.6 V (9 V .. 16 V)'],
    ['9 V .. 16 V nominal 12.6 V', voltage, 'unexpected-text', 'nominal', '12.6 V (9 V .. 16 V)'],
    ['5 V roughly', voltage, 'unexpected-text', 'roughly'],
    ['< 5 V', voltage, 'unexpected-text', '< 5 V'],
    ['5 V ± 2 %', single, 'unexpected-text', '5 V ± 2 %'],
    ['5 V', parseLimit, 'exact-limit', '5 V'],
    ['max 0.2 V', parseLimit, 'limit-word', 'max', 'at most 0.2 V'],
    ['0.2 V max', parseLimit, 'limit-word', 'max', 'at most 0.2 V'],
    ['4.4 V or more', parseLimit, 'limit-word', 'or', 'at least 4.4 V'],
    ['less than 5 V', parseLimit, 'limit-word', 'less', 'below 5 V'],
    ['ol', parseLimit, 'limit-word', 'ol', 'OL'],
    ['∞', parseLimit, 'limit-word', '∞', 'OL'],
    ['-5 Ω', resistance, 'below-zero', '-5'],
    ['-300 °C', temperature, 'below-zero', '-300'],
    ['25 °C ± 5 %', temperature, 'percent-of-temperature', '5 %'],
    ['10 Ω ± 120 %', resistance, 'wide-tolerance', '120 %'],
    ['10 Ω ± 12 Ω', resistance, 'wide-tolerance', '12 Ω'],
    ['0 V ± 5 %', voltage, 'percent-of-zero', '5 %'],
    ['5 V ± -5 %', voltage, 'negative-tolerance', '-5 %', '5 V ± 5 %'],
    ['0.75', parseWireSize, 'missing-unit', '0.75', '0.75 mm²'],
    ['18', parseWireSize, 'missing-unit', '18'],
    ['1.5 mm', parseWireSize, 'wrong-unit', 'mm'],
    ['60 AWG', parseWireSize, 'unknown-wire-size', '60 AWG'],
    ['0 mm²', parseWireSize, 'unknown-wire-size', '0 mm²'],
    ['good', parseAccuracy, 'unknown-accuracy', 'good'],
  ];

  test.each(slips)('`%s`', (text, parse, id, at, suggestion) => {
    const { problem } = parse(text);
    expect(problem?.id).toBe(id);
    expect(text.slice(problem?.start, problem?.end)).toBe(at);
    expect(problem?.suggestion).toBe(suggestion);
  });

  test.each([
    ['4.71 V - 4.93 V', true],
    ['4.7 mv', true],
    ['9 V .. 16 V nominal 12.6 V', true],
    ['4.7 MV', false],
    ['4.7', false],
    ['4.93 V .. 4.71 V', false],
    ['4.93 V - 4.71 V', false],
    ['4.7 voltz', false],
  ])('whether the correction of `%s` is certain: %s', (text, certain) => {
    expect(voltage(text).problem).toMatchObject({ suggestion: expect.any(String), certain });
  });

  test('every message stands in one file that is read in review', async () => {
    const rendered = slips.map(([text, parse]) => {
      const { id, message, detail, help, suggestion } = parse(text).problem!;
      return [`\`${text}\`  ${id}: ${message}`, detail, `help: ${help}`, suggestion && `fix: ${suggestion}`]
        .filter(line => line)
        .join('\n    ');
    });
    await expect(`${rendered.join('\n\n')}\n`).toMatchFileSnapshot('../golden/quantity-messages.txt');
  });

  test('a wrong unit names both sides', () => {
    expect(resistance('4.7 V').problem).toMatchObject({
      message: '`4.7 V` is a voltage; a resistance is expected',
      detail: '`V` is a unit of voltage; a resistance is written in Ω, kΩ, MΩ or mΩ.',
    });
  });

  test('an ambiguous comma names both readings', () => {
    expect(resistance('1,234 Ω').problem?.help).toBe('Write `1234` or `1.234`, whichever is meant.');
  });
});
