import type { Dimension } from '../base/quantity/dimension.ts';

/** What may stand at one place of a file. A place can take text, a list and a map; each of them is a facet here. */
export interface Shape {
  /** A noun as it stands in a sentence: `module pin`. Empty where the key alone says enough. */
  readonly title: string;
  /** What a person reads when hovering over the key. */
  readonly description: string;
  /** Values as they stand in a file, simplest first. */
  readonly examples: readonly unknown[];
  /** The value for completion, in the snippet syntax of the Language Server Protocol; `\t` is one step of indentation. */
  readonly snippet?: string;
  readonly text?: TextShape;
  readonly list?: ListShape;
  /** Several where the place takes one of several maps, such as the kinds of part. */
  readonly maps: readonly MapShape[];
  /** How several maps are told apart: by the value of `kind`, or by which key of their own is there. */
  readonly chosenBy: ChosenBy;
  /** For what stands in a map or a list: whole entries for completion, key included, one for each way of writing it. */
  readonly entries: readonly EntrySnippet[];
  /** Whether the value may be left out. */
  readonly mayBeEmpty: boolean;
}

/** An `action` is a key, too; it only has problems of its own. */
export type ChosenBy = 'kind' | 'action' | 'key';

export interface TextShape {
  /** The only texts that are taken; absent: any. */
  readonly values?: readonly ValueDoc[];
  /** Other words for them that people write: `volts` for `voltage`. */
  readonly otherWords: ReadonlyMap<string, string>;
  /** What the text names, for example a `step` or an `ending`; empty where it names nothing. */
  readonly names: readonly NameKind[];
  /** The quantity written here; absent where it is not one. */
  readonly quantity?: QuantityShape;
  /** Words that may stand instead of a name: `all`. */
  readonly words: readonly string[];
  /** The text is a line with a grammar of its own. */
  readonly line?: 'wire';
  /** What the text gives a name to: `system`. */
  readonly defines?: NameKind;
  /** The highest version of the language that this release reads. */
  readonly format?: number;
}

/** What a name stands for. Some are wider words for several of the others, as said behind them. */
export type NameKind =
  | 'variant'
  | 'condition'
  | 'state' // of the condition, part, output or scan datum whose key it stands under
  | 'part'
  | 'terminal'
  | 'position' // of the switch itself
  | 'button' // of the coded switches themselves
  | 'failure' // of the item itself
  | 'connector'
  | 'cavity'
  | 'ground'
  | 'splice'
  | 'wire'
  | 'pin' // of the module itself
  | 'load' // a part that is `on` or `off`
  | 'output' // of a module: `A1.22`
  | 'point' // terminal, cavity, ground or splice, with a remark where needed
  | 'scan data' // `MODULE NAME` in a procedure, the name alone in the module itself
  | 'specification' // `NAME/ROW`
  | 'row'
  | 'fault' // `OWNER FAULT`
  | 'repairable' // part, wire, connector, ground, splice or item
  | 'step'
  | 'ending'
  | 'answer' // of the step whose name it stands under
  | 'start' // a symptom or a code
  | 'walk'
  | 'tool'
  | 'rule' // that can be silenced
  | 'owner' // of a finding: step, ending, part, wire, connector, ground, condition
  | 'system'
  | 'procedure'
  | 'system file'
  | 'procedure file';

export interface ValueDoc {
  readonly value: string;
  readonly description: string;
}

export interface QuantityShape {
  readonly quantity: Dimension | QuantityElsewhere;
  readonly form: 'plain' | 'ranged' | 'span' | 'limit' | 'accuracy' | 'event' | 'reading';
  /** Words that may stand instead of the quantity or before it: `short`, `crosses`. */
  readonly words?: readonly string[];
}

export interface ListShape {
  readonly items: Shape;
  readonly min: number;
  readonly max: number;
  /** What each text of the list gives a name to: `state`. */
  readonly defines?: NameKind;
}

/** Where the dimension comes from when the place itself does not decide it. */
export type QuantityElsewhere =
  | 'any' // as the author chooses: ends of a condition with a number
  | 'of the measure' // by what the step, specification or scan datum reads
  | 'of the channel' // by what the channel of a recording shows
  | 'of the condition' // as the condition that the part follows
  | 'of the part' // as the kind of part decides: a resistance, a voltage
  | 'of the list'; // as the key decides whose list of values this is

export interface MapShape {
  readonly title: string;
  readonly description: string;
  readonly keys: ReadonlyMap<string, Key>;
  readonly required: readonly Key[];
  /** Keys that are known by their beginning: `at ` of `at 25 °C`. */
  readonly beginnings: ReadonlyMap<string, Key>;
  /** What stands under every other key; absent where there is none. */
  readonly others?: Shape;
  /** What every other key names: `condition`, `part`. */
  readonly keyNames: readonly NameKind[];
  /** What every other key gives a name to: `step`. */
  readonly defines?: NameKind;
  /** Keys that may not stand here, each with the reason. */
  readonly denied: ReadonlyMap<string, Denial>;
  readonly min: number;
  readonly max: number;
  /** The value of `kind`, or the key, that chooses this map among several. */
  readonly selector?: string;
  /** Other words for the selector that people write: `bulb` for `lamp`. */
  readonly otherWords: readonly string[];
}

/** Why a key may not stand here; what it `says` goes on from the key itself: `only` "cannot differ by variant". */
export interface Denial {
  readonly says: string;
  readonly why: string;
}

export interface Key {
  readonly key: string;
  readonly required: boolean;
  /** Other words for it that people write: `type` for `kind`. */
  readonly otherWords: readonly string[];
  readonly shape: Shape;
}

export interface EntrySnippet {
  readonly label: string;
  readonly description: string;
  /** In snippet syntax; `\t` is one step of indentation. */
  readonly body: string;
}
