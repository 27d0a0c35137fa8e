/** A piece of the text. `code` is a letter code after IEC 60062 such as `4k7`: the letter stands for the decimal point. */
export interface Token {
  kind: 'number' | 'code' | 'word' | 'mark';
  text: string;
  start: number;
  end: number;
}

/** Cuts the text of a scalar into tokens. Every character that is not white space lands in exactly one token. */
export function scan(text: string): Token[] {
  const tokens: Token[] = [];
  let at = 0;
  while (at < text.length) {
    const found = match(text, at);
    if (found.kind !== 'space')
      tokens.push({ kind: found.kind, text: found.text, start: at, end: at + found.text.length });
    at += found.text.length;
  }
  return tokens;
}

type Kind = Token['kind'] | 'space';

const patterns: readonly [Kind, RegExp][] = [
  ['space', /\s+/y],
  ['code', /(?:\d+[RKkMGVpnuµμ]\d+|R\d+)(?![\p{L}\d.,])/uy],
  [
    'number',
    /(?:\d{1,3}(?:[ '’\u00a0\u2009\u202f]\d{3})+(?!\d)|\d+|(?=[.,]\d))(?:[.,]\d+)*(?:[.,](?![.\d]))?(?:[eE][+-]?\d+)?/uy,
  ],
  ['word', /%/y],
  ['word', /[\p{L}°℃℉][\p{L}°²³\d·^*]*(?:\/\p{L}+[²³\d]*)?/uy],
  ['mark', /\.{2,}|…|\+\/[-−]|\+[-−]|<=|>=|=<|=>/y],
  ['mark', /./suy],
];

function match(text: string, at: number): { kind: Kind; text: string } {
  for (const [kind, pattern] of patterns) {
    pattern.lastIndex = at;
    const found = pattern.exec(text)?.[0];
    if (found) return { kind, text: found };
  }
  // Only a lone half of a surrogate pair comes here.
  return { kind: 'mark', text: text.charAt(at) };
}
