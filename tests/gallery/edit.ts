/** One way to break a clean example. */
export interface Breakage {
  /** The rule that must find it, and find nothing else. */
  readonly rule: string;
  /** The example that is copied, below `examples/`. */
  readonly file: string;
  /** What is wrong, in a few words, for the first line of the copy. */
  readonly what: string;
  /** What stands exactly once in the file, and what it becomes. */
  readonly edits: readonly Edit[];
  /** Other examples that are copied beside it as they are; whatever else it names is read where it stands. */
  readonly beside?: readonly string[];
}

export type Edit = readonly [find: string | RegExp, becomes: string];

/** The smallest of the examples are broken where any would do. */
export const alarm = 'workboat/alarm-with-dry-bilge.procedure.yaml';
export const alarmSamples = 'workboat/alarm-with-dry-bilge.samples.yaml';
export const pump = 'workboat/pump-dead-on-automatic.procedure.yaml';
export const bilge = 'workboat/bilge.system.yaml';
export const loader = 'loader/loader-aux.system.yaml';
export const loaderNeverStarts = 'loader/aux-flow-never-starts.procedure.yaml';
export const loaderDropsOut = 'loader/aux-flow-drops-out.procedure.yaml';
export const genset = 'generator/genset.system.yaml';
export const batteryFlat = 'generator/battery-flat-overnight.procedure.yaml';
export const willNotCrank = 'generator/will-not-crank.procedure.yaml';
