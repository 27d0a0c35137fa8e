/** Something that a technician can do to tell suspects apart. */
export interface Candidate {
  readonly what: What;
  readonly minutes: number;
  /** By suspect: what is shown. Numbers are volts, and nearly equal ones are not told apart; words are told apart. */
  readonly shown: readonly (number | string)[];
}

export type What =
  | { readonly do: 'inspect'; readonly item: string }
  | { readonly do: 'read'; readonly module: string; readonly datum: string }
  | { readonly do: 'measure'; readonly red: string; readonly black: string };

/** `Voltage at A1.14 against GND-2`. */
export function titleOfWhat(what: What): string {
  switch (what.do) {
    case 'inspect':
      return `Look at ${what.item}`;
    case 'read':
      return `Read ${what.module} ${what.datum}`;
    case 'measure':
      return `Voltage at ${what.red} against ${what.black}`;
  }
}
