import type { SyntaxProblemId } from './problems.ts';

/** Characters beyond which a text is not read: about a hundred times what the largest procedures have. */
export const LARGEST_TEXT = 10_000_000;

/** Why a text is no YAML to speak of, in offsets from its start. */
export interface Obstacle {
  readonly id: SyntaxProblemId;
  readonly start: number;
  readonly end: number;
  readonly message: string;
  readonly detail?: string;
  readonly help?: string;
  readonly related?: readonly { readonly start: number; readonly end: number; readonly message: string }[];
}

/** What keeps the text from being read at all. Looks at no more than its length where that is too great. */
export function obstacle(text: string): Obstacle | undefined {
  if (text.length > LARGEST_TEXT) {
    return {
      id: 'file-too-large',
      start: 0,
      end: 1,
      message: `File has more than ${LARGEST_TEXT / 1_000_000} million characters`,
      detail: 'It is not read, so that the editor stays quick.',
      help: 'split it into several files',
    };
  }
  return binary(text) ?? conflict(text);
}

/** How much of the text is looked through for control characters, and how many of them no text has. */
const SAMPLE = 4096;
const MOST_CONTROLS = 16;

function binary(text: string): Obstacle | undefined {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these characters are what is looked for.
  const controls = text.slice(0, SAMPLE).match(/[\x00-\x08\x0e-\x1f\x7f\ufffd]/g)?.length ?? 0;
  if (controls <= MOST_CONTROLS && !text.includes('\0')) return undefined;
  return {
    id: 'binary-content',
    start: 0,
    end: 1,
    message: 'File is not text',
    detail: 'It holds characters that occur in programs, pictures and archives only.',
    help: 'check the name of the file, or save it as UTF-8',
  };
}

const SIGNS = ['<<<<<<<', '>>>>>>>', '=======', '|||||||'];
const MARKER = /^(?:[<>|]{7} .*|={7}\r?)$/gm;
const MOST_RELATED = 10;

/** Markers that a merge leaves at line starts where both sides changed the same lines. */
function conflict(text: string): Obstacle | undefined {
  if (!SIGNS.some(sign => text.includes(sign))) return undefined;
  const markers: { start: number; end: number }[] = [];
  for (const match of text.matchAll(MARKER)) {
    if (/^([<>|=])\1{6}/.test(match[0])) markers.push({ start: match.index, end: match.index + 7 });
    if (markers.length > 3 * MOST_RELATED) break;
  }
  const [first, ...others] = markers;
  if (!first) return undefined;
  return {
    ...first,
    id: 'conflict-marker',
    message: 'Markers of an unfinished merge stand in the file',
    detail: 'Until one side of each conflict is chosen, the file says two things at once.',
    help: 'keep one side and remove the marker lines',
    related: others.slice(0, MOST_RELATED).map(place => ({ ...place, message: 'another marker' })),
  };
}
