import type { Shape } from './shape.ts';

/** What completion puts behind the colon of a key: the schema's own snippet, or one made from what the place takes. */
export function snippetOf(shape: Shape): string {
  if (shape.snippet !== undefined) return shape.snippet;
  const { text, list, maps, examples } = shape;
  if (text?.values)
    return text.values.length === 1
      ? text.values[0]!.value
      : `\${1|${text.values.map(v => choice(v.value)).join(',')}|}`;
  const example = examples[0];
  if (text && typeof example === 'string') return `\${1:${escaped(example)}}`;
  if (text) return '$1';
  if (list && list.min > 1 && Array.isArray(example)) {
    return `[${example.map((item, i) => `\${${i + 1}:${escaped(String(item))}}`).join(', ')}]`;
  }
  if (list) return list.items.text ? '[$1]' : '\n\t- $1';
  return maps.length > 0 ? '\n\t$1' : '$1';
}

function choice(value: string): string {
  return value.replace(/[\\,|$}]/g, '\\$&');
}

function escaped(text: string): string {
  return text.replace(/[\\$}]/g, '\\$&');
}
