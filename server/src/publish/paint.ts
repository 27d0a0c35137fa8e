/** Puts a text in a colour of the terminal, or leaves it as it is. */
export type Paint = (style: Style, text: string) => string;

export type Style = 'bold' | 'dim' | 'error' | 'warning' | 'information' | 'hint';

export const plain: Paint = (_, text) => text;

export const coloured: Paint = (style, text) => `\u001b[${codes[style]}m${text}\u001b[0m`;

/** Select Graphic Rendition of ECMA-48. */
const codes: Record<Style, string> = { bold: '1', dim: '2', error: '31', warning: '33', information: '36', hint: '2' };

/** A text from a file in which nothing can steer the terminal. */
export function harmless(text: string): string {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these characters are what is looked for.
  return text.replace(/[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/g, '\u00b7');
}
