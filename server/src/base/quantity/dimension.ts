/**
 * What the product can measure or be told. Every dimension has one base unit in which values are kept:
 * the SI unit, except where the trade never uses it (temperature in °C, angle in degrees, rotation in rpm).
 */
export type Dimension =
  | 'voltage'
  | 'resistance'
  | 'current'
  | 'power'
  | 'length'
  | 'area'
  | 'temperature'
  | 'temperature difference'
  | 'time'
  | 'pressure'
  | 'ratio'
  | 'frequency'
  | 'capacitance'
  | 'inductance'
  | 'charge'
  | 'angle'
  | 'speed'
  | 'rotation'
  | 'flow'
  | 'torque'
  | 'resistance per length'
  | 'voltage rate'
  | 'number';

export interface DimensionFacts {
  /** With its article, as it stands in a sentence: `a voltage`. */
  noun: string;
  /** The units a writer is offered, in words: `V, mV or kV`. */
  offered: string;
  /** A value as the trade writes it. */
  example: string;
  /** The unit a bare number surely means; absent where two are equally likely, for example mm and m. */
  obviousUnit?: string;
  /** The lowest value that can exist, in base units. */
  floor?: number;
}

export const dimensionFacts: Record<Dimension, DimensionFacts> = {
  voltage: { noun: 'a voltage', offered: 'V, mV or kV', example: '12.6 V', obviousUnit: 'V' },
  resistance: { noun: 'a resistance', offered: 'Ω, kΩ, MΩ or mΩ', example: '4.7 kΩ', obviousUnit: 'Ω', floor: 0 },
  current: { noun: 'a current', offered: 'A, mA or µA', example: '120 mA', obviousUnit: 'A' },
  power: { noun: 'a power', offered: 'W, mW or kW', example: '21 W', obviousUnit: 'W', floor: 0 },
  length: { noun: 'a length', offered: 'm, cm, mm, ft or in', example: '2.4 m', floor: 0 },
  area: { noun: 'an area', offered: 'mm² or cm²', example: '0.75 mm²', floor: 0 },
  temperature: { noun: 'a temperature', offered: '°C, °F or K', example: '20 °C', obviousUnit: '°C', floor: -273.15 },
  'temperature difference': { noun: 'a temperature difference', offered: 'K', example: '3950 K', obviousUnit: 'K' },
  time: { noun: 'a time', offered: 's, ms, min or h', example: '500 ms', floor: 0 },
  pressure: { noun: 'a pressure', offered: 'kPa, bar, MPa or psi', example: '300 kPa' },
  ratio: { noun: 'a ratio', offered: '% or ppm', example: '5 %', obviousUnit: '%' },
  frequency: { noun: 'a frequency', offered: 'Hz, kHz or MHz', example: '120 Hz', obviousUnit: 'Hz', floor: 0 },
  capacitance: { noun: 'a capacitance', offered: 'µF, nF or pF', example: '100 nF', floor: 0 },
  inductance: { noun: 'an inductance', offered: 'mH, µH or H', example: '12 mH', floor: 0 },
  charge: { noun: 'a charge', offered: 'Ah', example: '70 Ah', obviousUnit: 'Ah', floor: 0 },
  angle: { noun: 'an angle', offered: '°', example: '15 °', obviousUnit: '°' },
  speed: { noun: 'a speed', offered: 'km/h, mph or m/s', example: '12 km/h' },
  rotation: { noun: 'a rotation speed', offered: 'rpm', example: '850 rpm', obviousUnit: 'rpm' },
  flow: { noun: 'a flow', offered: 'l/min or m³/h', example: '60 l/min' },
  torque: { noun: 'a torque', offered: 'N·m', example: '25 N·m', obviousUnit: 'N·m' },
  'resistance per length': {
    noun: 'a resistance per length',
    offered: 'mΩ/m, Ω/km or Ω/m',
    example: '24.7 mΩ/m',
    floor: 0,
  },
  'voltage rate': { noun: 'a voltage rate', offered: 'V/s or mV/s', example: '2 V/s', obviousUnit: 'V/s' },
  number: { noun: 'a plain number', offered: 'no unit', example: '3' },
};
