import { harmless, type Paint, plain } from './paint.ts';
import { totalsOf, type Walked, type WalkedFile } from './walks.ts';

/** The walks for a reader at a terminal: a line for each that reached its ending, and a few for one that did not. */
export function walksAsText(files: readonly WalkedFile[], paint: Paint = plain): string {
  const blocks = files.map(({ path, walks }) =>
    [paint('bold', harmless(path)), ...walks.flatMap(one => lines(one, paint))].join('\n'),
  );
  return `${[...blocks, total(files)].join('\n\n')}\n`;
}

function lines(one: Walked, paint: Paint): string[] {
  const { walk, variant, reached, at, steps, message, detail, help } = one;
  const named = `${harmless(walk)} ${paint('dim', `(${harmless(variant)})`)}`;
  const many = `${steps.length} step${steps.length === 1 ? '' : 's'}`;
  if (reached) return [`  reached  ${named}: ${harmless(at!)} ${paint('dim', `after ${many}`)}`];
  const why = [message, detail, help && `help: ${help}`].flatMap(text =>
    text ? [`           ${harmless(text)}`] : [],
  );
  return [`  ${paint('error', 'missed')}   ${named}`, ...why];
}

function total(files: readonly WalkedFile[]): string {
  const { walks, reached, missed } = totalsOf(files);
  if (missed > 0) return `${reached} of ${walks} sample walks reached the ending that they name`;
  return walks === 1 ? 'The one sample walk reached its ending' : `All ${walks} sample walks reached their endings`;
}
