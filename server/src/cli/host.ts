/** A command says here how it ended: 0 clean, 1 something was found. */
export type Finish = (status: 0 | 1) => void;

/** What a run of the program has around it; tests stand in for it. */
export interface Host {
  /** Folder that names are relative to. */
  readonly folder: string;
  /** Writes to the output that other programs read. */
  out(text: string): void;
  /** Writes to the output that only people read. */
  err(text: string): void;
  /** Whether `out` is a terminal that shows colours. */
  readonly colours: boolean;
}

export const processHost: Host = {
  folder: process.cwd(),
  out: text => process.stdout.write(text),
  err: text => process.stderr.write(text),
  // The convention of no-color.org: any text in the variable means no colours.
  colours: process.stdout.isTTY === true && !process.env.NO_COLOR,
};
