import type { Option } from './preview.ts';

/** The table of what a meter should show at every test point of a system: `ValuesParams` to `ValuesState`, null where there is no system. */
export const valuesRequest = 'faultwalk/values';

/** The same as text for another program: `ValuesCopyParams` to the text, null where there is no system. */
export const valuesCopyRequest = 'faultwalk/values/copy';

/** Where a point or part of the table is declared: `ValuesPlaceParams` to a `Place`, null where there is none. */
export const valuesPlaceRequest = 'faultwalk/values/place';

export interface ValuesParams {
  textDocument: { uri: string };
  /** The first one where absent or not there any more. */
  variant?: string;
}

export interface ValuesCopyParams extends ValuesParams {
  form: 'markdown' | 'csv';
}

export interface ValuesPlaceParams {
  textDocument: { uri: string };
  /** `A1.14`, `X12/3`, `GND-4`. */
  point: string;
}

/** Everything that is drawn. */
export interface ValuesState {
  title: string;
  variants: Option[];
  sections: ValuesList[];
  /** What is not in the lists and why, a sentence each. */
  notes: string[];
}

export interface ValuesList {
  title: string;
  /** How it is measured. */
  remark: string;
  rows: ValuesLine[];
}

/** One place for the leads. */
export interface ValuesLine {
  /** The point of the red lead. */
  point: string;
  /** Both leads where the black one moves, else the red one. */
  leads: string;
  title: string;
  also: string[];
  readings: { state: string; range: string; nominal: string }[];
}
