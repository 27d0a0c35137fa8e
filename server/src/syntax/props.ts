import type { CST } from 'yaml';
import type { Context, Marks } from './context.ts';

/** What stands before a key or a value: its dash, question mark or colon, and the marks that YAML allows there. */
export interface Props extends Marks {
  /** The indicator that was looked for. */
  readonly found?: CST.SourceToken;
  readonly comma?: CST.SourceToken;
  readonly hasNewline: boolean;
  /** A line break between a mark and what it marks. */
  readonly newlineAfterMark: boolean;
  readonly start: number;
  readonly end: number;
}

export interface PropsPlace {
  readonly indicator: 'seq-item-ind' | 'explicit-key-ind' | 'map-value-ind' | 'doc-start';
  readonly inFlow: boolean;
  readonly next: CST.Token | null | undefined;
  /** Where the tokens would stand, should there be none. */
  readonly offset: number;
  readonly parentIndent: number;
  readonly atNewline: boolean;
}

type Mutable<T> = { -readonly [K in keyof T]: T[K] };

export function readProps(c: Context, tokens: readonly CST.SourceToken[], place: PropsPlace): Props {
  const { indicator, inFlow, next } = place;
  const props: Mutable<Props> = { hasNewline: false, newlineAfterMark: false, start: place.offset, end: place.offset };
  let start: number | undefined;
  let atNewline = place.atNewline;
  let hasSpace = place.atNewline;
  let mark: CST.SourceToken | undefined;
  let tab: CST.SourceToken | undefined;
  for (const token of tokens) {
    if (mark && !['space', 'newline', 'comma'].includes(token.type)) c.misplaced(mark);
    mark = undefined;
    if (tab && atNewline && token.type !== 'comment' && token.type !== 'newline')
      reportTab(c, tab.offset + tab.source.indexOf('\t'));
    tab = undefined;
    switch (token.type) {
      case 'space':
        if (!inFlow && token.source.includes('\t') && !(indicator === 'doc-start' && next?.type === 'flow-collection'))
          tab = token;
        hasSpace = true;
        break;
      case 'comment':
        if (!hasSpace) c.commentWithoutBlank(token.offset);
        atNewline = false;
        break;
      case 'newline':
        atNewline = true;
        hasSpace = true;
        props.hasNewline = true;
        if (props.anchor || props.tag) props.newlineAfterMark = true;
        break;
      case 'anchor':
      case 'tag':
        if (props[token.type]) c.misplaced(token);
        props[token.type] = token;
        start ??= token.offset;
        mark = token;
        atNewline = false;
        hasSpace = false;
        break;
      case indicator:
        if (props.anchor ?? props.tag) c.misplaced((props.anchor ?? props.tag)!);
        if (props.found) c.unexpected(token);
        props.found = token;
        atNewline = indicator === 'seq-item-ind' || indicator === 'explicit-key-ind';
        hasSpace = false;
        break;
      default:
        if (token.type !== 'comma' || !inFlow || props.comma) c.unexpected(token);
        if (token.type === 'comma') props.comma = token;
        atNewline = false;
        hasSpace = false;
    }
  }
  const last = tokens.at(-1);
  if (last) props.end = last.offset + last.source.length;
  props.start = start ?? props.end;
  if (mark && next && !isSeparator(next)) c.misplaced(mark);
  const blockNext = next?.type === 'block-map' || next?.type === 'block-seq';
  if (tab && ((atNewline && tab.indent <= place.parentIndent) || blockNext))
    reportTab(c, tab.offset + tab.source.indexOf('\t'));
  return props;
}

function isSeparator(token: CST.Token): boolean {
  return ['space', 'newline', 'comma'].includes(token.type) || (token.type === 'scalar' && token.source === '');
}

export function reportTab(c: Context, at: number): void {
  c.report('tab-indentation', at, at + 1, 'Tab used for indentation', {
    detail: 'How wide a tab looks differs from editor to editor, so YAML counts blanks only.',
    help: 'indent with blanks',
  });
}
