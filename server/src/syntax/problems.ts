import type { Span } from '../base/span.ts';

/** One mistake at one token, in the author's words. Its id states the bad thing. */
export interface SyntaxProblem {
  readonly id: SyntaxProblemId;
  readonly span: Span;
  /** What is wrong: at most 90 characters, stands alone, names in backticks, no full stop. */
  readonly message: string;
  readonly detail?: string;
  readonly help?: string;
  readonly related?: readonly { readonly span: Span; readonly message: string }[];
}

export type SyntaxProblemId = keyof typeof syntaxProblems;

/** Every problem this room can report, for lists and the manual. */
export const syntaxProblems = {
  'bad-indentation': 'An entry does not begin in the column of its neighbours',
  'binary-content': 'The file is not text',
  'bracket-holds-block': 'Lines that begin with a dash or a name stand inside brackets',
  'colon-in-text': 'A colon and a blank inside a text without quotes',
  'comment-without-blank': 'A comment directly behind a value',
  'conflict-marker': 'Markers of an unfinished merge',
  'control-character': 'An invisible control character',
  'cyclic-alias': 'A reference to the value it stands in',
  'duplicate-key': 'The same name twice in one place',
  'extra-comma': 'A comma with nothing before it',
  'file-too-large': 'The file is larger than can be read',
  'key-not-text': 'A list or a map where a name belongs',
  'key-over-lines': 'A name that goes over several lines',
  'key-too-long': 'A name too long to be one',
  'list-on-key-line': 'A list that begins on the line of its name',
  'merge-key': 'Entries copied with `<<`',
  'missing-blank': 'A colon or a dash directly before its value',
  'missing-colon': 'A name without a colon',
  'missing-comma': 'Two values in brackets without a comma',
  'missing-dash': 'An item of a list without its dash',
  'missing-key': 'A value without a name',
  'misplaced-mark': 'An anchor or a tag where none can stand',
  'mixed-list-and-map': 'A dash among named entries',
  'needs-quotes': 'A text that begins with a character of YAML',
  'several-documents': 'A second document in one file',
  'stray-bracket': 'A bracket that closes nothing',
  'tab-indentation': 'A tab used for indentation',
  'tag-without-meaning': 'A tag, which means nothing in these files',
  'text-after-value': 'Text behind a closing quote or bracket',
  'too-deep': 'Values nested too deeply',
  'too-many-aliases': 'References that multiply without bounds',
  'unclosed-bracket': 'A bracket that is not closed',
  'unclosed-quote': 'A quote that is not closed',
  'unknown-alias': 'A reference to an anchor that is not there',
  'unknown-escape': 'A backslash in double quotes before a character without meaning',
  'unreadable-text': 'Text that cannot be read as YAML',
} as const;

/** Text for a message: on one line and short, so that the message stays readable whatever stands in the file. */
export function quoted(text: string, most = 32): string {
  const line = text.trim().replace(/\s+/g, ' ').replaceAll('`', "'");
  const characters = [...line];
  return `\`${characters.length > most ? `${characters.slice(0, most - 1).join('')}…` : line}\``;
}

/** A character in backticks, or by name where it is a backtick itself. */
export function mark(char: string): string {
  return char === '`' ? 'a backtick' : `\`${char}\``;
}
