/** A name that a file can have for something, made from any text. */
export function slug(text: string): string {
  return text.replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-|-$/g, '') || 'step';
}

/** A map in one line. */
export function pairs(all: readonly (readonly [string, string])[]): string {
  return `{ ${all.map(([name, state]) => `${quoted(name)}: ${quoted(state)}`).join(', ')} }`;
}

/** As YAML reads it back as the same text. */
export function quoted(text: string): string {
  const isPlain =
    /^[\p{L}][\p{L}\p{N} ./+()-]*$/u.test(text) &&
    !/^(yes|no|on|off|true|false|null|y|n)$/i.test(text) &&
    text === text.trim();
  return isPlain || /^(on|off|yes|no)$/.test(text) ? text : JSON.stringify(text);
}
