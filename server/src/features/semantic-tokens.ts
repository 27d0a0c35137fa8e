import type { FileView } from '../analysis/view.ts';
import { namesIn, stretchOf } from './names/names-in.ts';
import type { ThingKind } from './names/thing.ts';
import type { Stretch } from './project.ts';

/** The standard types of the Language Server Protocol, so that every theme has a colour for them. */
export const tokenTypes = [
  'class',
  'property',
  'namespace',
  'variable',
  'enumMember',
  'function',
  'event',
  'type',
  'parameter',
] as const;
export const tokenModifiers = ['declaration'] as const;

export interface SemanticToken extends Stretch {
  readonly type: (typeof tokenTypes)[number];
  readonly declares: boolean;
}

/** The names in a file by what they stand for, in the order of the text and without overlaps. */
export function semanticTokens(view: FileView, within?: Stretch): SemanticToken[] {
  const tokens = namesIn(view)
    .map(occurrence => ({
      ...stretchOf(view, occurrence),
      type: types[occurrence.thing.kind],
      declares: occurrence.declares,
    }))
    .filter(({ start, end }) => end > start && (!within || (end > within.start && start < within.end)))
    .sort((a, b) => a.start - b.start || b.end - a.end);
  let reached = 0;
  return tokens.filter(({ start, end }) => {
    if (start < reached) return false;
    reached = end;
    return true;
  });
}

const types: Record<ThingKind, SemanticToken['type']> = {
  part: 'class',
  terminal: 'property',
  connector: 'namespace',
  cavity: 'property',
  ground: 'variable',
  splice: 'variable',
  wire: 'variable',
  condition: 'parameter',
  state: 'enumMember',
  variant: 'type',
  specification: 'type',
  row: 'property',
  'scan datum': 'property',
  failure: 'enumMember',
  step: 'function',
  ending: 'event',
  answer: 'enumMember',
  entry: 'event',
};
