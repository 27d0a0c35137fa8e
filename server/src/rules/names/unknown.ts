import { closest } from '../../base/closest.ts';
import type { Finding, Fix } from '../../base/finding.ts';
import type { Ref } from '../../base/place.ts';
import { name, named } from '../wording.ts';

interface Unknown {
  /** The name as written. */
  readonly ref: Ref;
  readonly message: string;
  /** Where the name is used, as a whole sentence. */
  readonly detail?: string;
  /** What the name could have been, and what those are called together: `The states of \`key\``. */
  readonly among: readonly string[];
  readonly amongAre?: string;
  /** What else may be done, without the name that was nearly right: `add a step of this name`. */
  readonly otherwise: string;
  readonly fixes?: readonly Fix[];
}

/** A name that nothing has, with the one that was surely meant. */
export function unknownName({ ref, message, detail, among, amongAre, otherwise, fixes = [] }: Unknown): Finding {
  const meant = meantBy(ref.text, among);
  const list = amongAre === undefined || among.length === 0 ? undefined : `${amongAre} ${named(among, 8)}.`;
  return {
    rule: 'unknown-name',
    place: ref.place,
    message,
    detail: [detail, list].filter(s => s !== undefined).join(' ') || undefined,
    help: meant === undefined ? `${upper(otherwise)}.` : `Write ${name(meant)}, or ${otherwise}.`,
    fixes: meant === undefined ? fixes : [rename(ref, meant), ...fixes],
  };
}

/**
 * A name that differs only by its number is another thing and no slip of the pen: `W9` is not a misspelt `W8`. Names of one or
 * two characters are all near to one another.
 */
function meantBy(text: string, among: readonly string[]): string | undefined {
  const word = withoutDigits(text);
  const isOther = (name: string) => text.length < 3 || withoutDigits(name) === word;
  return closest(
    text,
    among.filter(name => !isOther(name) || plain(name) === plain(text)),
  );
}

function withoutDigits(text: string): string {
  return text.replace(/\d+/g, '');
}

function rename(ref: Ref, meant: string): Fix {
  const preferred = plain(ref.text) === plain(meant);
  return { title: `Write \`${meant}\``, edits: [{ place: ref.place, text: meant }], ...(preferred && { preferred }) };
}

/** Names that differ only by case, blanks, hyphens or underscores are certainly the same. */
function plain(text: string): string {
  return text.toLowerCase().replace(/[\s_-]+/g, '');
}

function upper(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
