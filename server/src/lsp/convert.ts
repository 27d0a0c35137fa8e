import { type Location, type Position, type Range, TextEdit } from 'vscode-languageserver';
import type { Location as Place, Replacement, Stretch } from '../features/project.ts';
import { normal, type Texts } from './texts.ts';

/** Between offsets, which the features speak, and lines with characters, which the editor speaks. */
export interface Converter {
  offset(uri: string, position: Position): number;
  position(uri: string, offset: number): Position;
  range(uri: string, stretch: Stretch): Range;
  location(place: Place): Location;
  edit(uri: string, edit: Stretch & { text: string }): TextEdit;
  /** Edits by file. */
  changes(edits: readonly Replacement[]): Record<string, TextEdit[]>;
}

const nowhere: Position = { line: 0, character: 0 };

export function converter(texts: Texts): Converter {
  const position = (uri: string, offset: number) => texts.document(normal(uri))?.positionAt(offset) ?? nowhere;
  const range = (uri: string, { start, end }: Stretch) => ({ start: position(uri, start), end: position(uri, end) });
  const nameOf = (uri: string) => texts.document(uri)?.uri ?? uri;
  const edit = (uri: string, { text, ...stretch }: Stretch & { text: string }) =>
    TextEdit.replace(range(uri, stretch), text);
  return {
    position,
    range,
    edit,
    offset: (uri, at) => texts.document(normal(uri))?.offsetAt(at) ?? 0,
    location: place => ({ uri: nameOf(place.uri), range: range(place.uri, place) }),
    changes(edits) {
      const changes: Record<string, TextEdit[]> = {};
      for (const { uri, ...one } of edits) {
        const name = nameOf(uri);
        changes[name] ??= [];
        changes[name].push(edit(uri, one));
      }
      return changes;
    },
  };
}
