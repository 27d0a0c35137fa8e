import type { LineAndCharacter } from './messages.ts';

/** The command behind a code lens and in the palette: `uri` of a procedure and the name of one of its steps. */
export const nextCommand = 'faultwalk.next';

/** Which tests tell most at a step: `NextParams` to a `NextAnswer`, null where there is no such step. */
export const nextRequest = 'faultwalk/next';

/** A step for one of these tests, to be inserted behind the step: `NextStepParams` to a `NextStep`, null where there is no such step. */
export const nextStepRequest = 'faultwalk/next/step';

export interface NextParams {
  textDocument: { uri: string };
  step: string;
  /** Needed where the procedure applies to several. */
  variant?: string;
}

export interface NextAnswer {
  variants: string[];
  /** Absent where no variant was named and there are several, or where no way leads to the step in this one. */
  tests?: NextTests;
}

export interface NextTests {
  variant: string;
  /** How many suspects there are, and what is set. */
  summary: string;
  /** The most telling per minute first. */
  tests: NextTest[];
}

export interface NextTest {
  test: NextWhat;
  minutes: number;
  title: string;
  /** Minutes, bits, and the minutes in all. */
  figures: string;
  /** What it may show, and how many suspects show it. */
  splits: string;
}

/** What is done, as a step has it. */
export type NextWhat =
  | { do: 'inspect'; item: string }
  | { do: 'read'; module: string; datum: string }
  | { do: 'measure'; red: string; black: string };

export interface NextStepParams {
  textDocument: { uri: string };
  step: string;
  variant: string;
  test: NextWhat;
  minutes: number;
}

export interface NextStep {
  name: string;
  /** Where the text goes, and where in the file the first branch is to be written then. */
  at: LineAndCharacter;
  text: string;
  cursor: LineAndCharacter;
}
