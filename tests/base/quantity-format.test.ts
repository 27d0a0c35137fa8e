import { describe, expect, test } from 'vitest';
import type { Dimension } from '../../server/src/base/quantity/dimension.ts';
import { formatQuantity, formatRange, type Rounding } from '../../server/src/base/quantity/format.ts';

test.each<[number, Dimension, string]>([
  [4.9301, 'voltage', '4.93 V'],
  [14.382, 'voltage', '14.38 V'],
  [11.999999999, 'voltage', '12 V'],
  [0.1 + 0.2, 'voltage', '300 mV'],
  [-0.0004, 'voltage', '-400 µV'],
  [0, 'voltage', '0 V'],
  [-0, 'voltage', '0 V'],
  [680, 'resistance', '680 Ω'],
  [22600, 'resistance', '22.6 kΩ'],
  [999.6, 'resistance', '1 kΩ'],
  [999.4, 'resistance', '999 Ω'],
  [0.0077, 'resistance', '7.7 mΩ'],
  [0.012, 'current', '12 mA'],
  [0.75e-6, 'area', '0.75 mm²'],
  [2.4, 'length', '2.4 m'],
  [-40, 'temperature', '-40 °C'],
  [0.05, 'ratio', '5 %'],
  [252000, 'charge', '70 Ah'],
  [10, 'speed', '36 km/h'],
  [0.0247, 'resistance per length', '24.7 mΩ/m'],
  [250e3, 'pressure', '250 kPa'],
  [850, 'rotation', '850 rpm'],
  [3, 'number', '3'],
  [Infinity, 'resistance', 'OL'],
  [NaN, 'voltage', 'no value'],
])('%s as a %s is `%s`', (value, dimension, text) => {
  expect(formatQuantity(value, dimension)).toBe(text);
});

test('the number of digits can be chosen', () => {
  expect(formatQuantity(4.71828, 'voltage', { digits: 2 })).toBe('4.7 V');
  expect(formatQuantity(4.71828, 'voltage', { digits: 5 })).toBe('4.7183 V');
});

describe('a range', () => {
  test.each<[number, number, Dimension, Rounding, string]>([
    [4.7123, 4.9287, 'voltage', 'nearest', '4.71 V .. 4.93 V'],
    [4.7123, 4.9287, 'voltage', 'outward', '4.71 V .. 4.93 V'],
    [4.7123, 4.9287, 'voltage', 'inward', '4.72 V .. 4.92 V'],
    [4.71, 4.93, 'voltage', 'outward', '4.71 V .. 4.93 V'],
    [4.71 - 1e-15, 4.93 + 1e-15, 'voltage', 'outward', '4.71 V .. 4.93 V'],
    [4.9312, 4.9338, 'voltage', 'outward', '4.9312 V .. 4.9338 V'],
    [783.6, 836.4, 'resistance', 'outward', '783 Ω .. 837 Ω'],
    [680, 1200, 'resistance', 'nearest', '0.68 kΩ .. 1.2 kΩ'],
    [0.012, 4.93, 'voltage', 'nearest', '12 mV .. 4.93 V'],
    [0, 4.93, 'voltage', 'nearest', '0 V .. 4.93 V'],
    [-0.3, 0.3, 'voltage', 'nearest', '-300 mV .. 300 mV'],
    [-40, 125, 'temperature', 'nearest', '-40 °C .. 125 °C'],
    [5, 5, 'voltage', 'nearest', '5 V'],
    [4.4, Infinity, 'voltage', 'nearest', 'at least 4.4 V'],
    [-Infinity, 0.3, 'voltage', 'nearest', 'at most 300 mV'],
    [Infinity, Infinity, 'resistance', 'nearest', 'OL'],
  ])('%d to %d, %s, rounded %s', (low, high, dimension, rounding, text) => {
    expect(formatRange(low, high, dimension, rounding)).toBe(text);
  });
});
