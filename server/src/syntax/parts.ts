import type { Unit } from '../base/span.ts';
import { type Content, readUnit } from './read-unit.ts';
import type { PlacedUnit } from './tree.ts';
import type { Form, Piece } from './units.ts';

/** A unit in its place, with what was read from it. */
export interface Part extends PlacedUnit {
  readonly form: Form;
  readonly content: Content;
}

/** Takes over the units whose text is unchanged, and reads the others. */
export function keep(pieces: readonly Piece[], text: string, old: readonly Part[]): readonly Part[] {
  const same = ({ form, start, end }: Piece, { form: oldForm, unit }: Part) =>
    form === oldForm && end - start === unit.text.length && text.slice(start, end) === unit.text;
  const parts = new Array<Part>(pieces.length);
  const move = (i: number, part: Part) => {
    const base = pieces[i]!.start;
    parts[i] = part.base === base ? part : { ...part, base };
  };
  const most = Math.min(pieces.length, old.length);
  let before = 0;
  while (before < most && same(pieces[before]!, old[before]!)) {
    move(before, old[before]!);
    before++;
  }
  let behind = 0;
  while (behind < most - before && same(pieces.at(-1 - behind)!, old.at(-1 - behind)!)) {
    move(pieces.length - 1 - behind, old.at(-1 - behind)!);
    behind++;
  }
  const left = new Map<string, Part[]>();
  for (const part of old.slice(before, old.length - behind).reverse()) {
    const known = left.get(part.form + part.unit.text);
    if (known) known.push(part);
    else left.set(part.form + part.unit.text, [part]);
  }
  for (let i = before; i < pieces.length - behind; i++) {
    const { form, start, end } = pieces[i]!;
    const part = left.get(form + text.slice(start, end))?.pop();
    if (part) move(i, part);
    else {
      const unit: Unit = { text: detached(text.slice(start, end)) };
      parts[i] = { unit, base: start, form, content: readUnit(unit, form) };
    }
  }
  return parts;
}

/**
 * A copy of a text of its own. A slice would keep the whole text alive that it was cut from, and so each unit one version of
 * the file; putting a character before it and cutting that off again makes V8 copy.
 */
function detached(text: string): string {
  return ` ${text}`.slice(1);
}
