/** A name between backticks, cut so that a message keeps its length. */
export function name(text: string, most = 32): string {
  const characters = Array.from(text.replaceAll('`', "'").replace(/\s+/g, ' '));
  return `\`${characters.length > most ? `${characters.slice(0, most - 1).join('')}…` : characters.join('')}\``;
}
