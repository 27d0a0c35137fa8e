import { type Parsed, quote } from './problem.ts';

/**
 * Reads an unsigned number: `4.7`, `4,7`, `1 200`, `1,234.5`, `1.234,5`, `1e3`. The point is always the decimal
 * sign. A comma is one too, unless exactly three digits follow it and it could as well part thousands.
 */
export function parseNumber(text: string, start = 0): Parsed<number> {
  const end = start + text.length;
  const [, body, exponent = ''] = /^([^eE]*)([eE][+-]?\d+)?$/.exec(text) ?? [];
  if (body === undefined) return unreadable(text, start, end);
  const digits = body.replace(/[ '’\u00a0\u2009\u202f]/g, '');
  if (/^[1-9]\d{0,2},\d{3}$/.test(digits)) return ambiguous(text, digits, start, end);
  const plain = plainDigits(digits);
  const value = Number(plain + exponent);
  if (plain === '' || !Number.isFinite(value)) return unreadable(text, start, end);
  return { value };
}

/** Digits with at most one decimal point, or an empty string where the separators make no number. */
function plainDigits(digits: string): string {
  if (/^(\d+\.?\d*|\.\d+)$/.test(digits) && !digits.endsWith('.')) return digits;
  if (/^(\d*,\d+)$/.test(digits)) return digits.replace(',', '.');
  if (/^\d{1,3}(,\d{3})+(\.\d+)?$/.test(digits)) return digits.replaceAll(',', '');
  if (/^\d{1,3}(\.\d{3})+,\d+$/.test(digits)) return digits.replaceAll('.', '').replace(',', '.');
  if (/^\d{1,3}(\.\d{3}){2,}$/.test(digits)) return digits.replaceAll('.', '');
  return '';
}

function ambiguous(text: string, digits: string, start: number, end: number): Parsed<number> {
  return {
    problem: {
      id: 'ambiguous-number',
      message: `${quote(text)} can be read in two ways`,
      detail: `The comma may part thousands (${digits.replace(',', '')}) or be a decimal sign (${digits.replace(',', '.')}).`,
      help: `Write \`${digits.replace(',', '')}\` or \`${digits.replace(',', '.')}\`, whichever is meant.`,
      start,
      end,
    },
  };
}

function unreadable(text: string, start: number, end: number): Parsed<number> {
  return {
    problem: {
      id: 'unreadable-number',
      message: `${quote(text)} cannot be read as a number`,
      detail: 'A number has at most one decimal point, and groups of thousands have three digits.',
      help: 'Write it with digits and one decimal point, for example `4.7` or `22600`.',
      start,
      end,
    },
  };
}
