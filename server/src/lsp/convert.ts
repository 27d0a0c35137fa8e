import { type Location, type Position, type Range, TextEdit } from 'vscode-languageserver';
import type { Stretch } from '../features/project.ts';
import { normal, type Texts } from './texts.ts';

/** Between offsets, which the features speak, and lines with characters, which the editor speaks. */
export interface Converter {
  offset(uri: string, position: Position): number;
  position(uri: string, offset: number): Position;
  range(uri: string, stretch: Stretch): Range;
  location(place: Stretch & { uri: string }): Location;
  edit(uri: string, edit: Stretch & { text: string }): TextEdit;
}

const nowhere: Position = { line: 0, character: 0 };

export function converter(texts: Texts): Converter {
  const position = (uri: string, offset: number) => texts.document(normal(uri))?.positionAt(offset) ?? nowhere;
  const range = (uri: string, { start, end }: Stretch) => ({ start: position(uri, start), end: position(uri, end) });
  return {
    position,
    range,
    offset: (uri, at) => texts.document(normal(uri))?.offsetAt(at) ?? 0,
    location: place => ({ uri: texts.document(place.uri)?.uri ?? place.uri, range: range(place.uri, place) }),
    edit: (uri, { text, ...stretch }) => TextEdit.replace(range(uri, stretch), text),
  };
}
