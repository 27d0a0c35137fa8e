import type { CST } from 'yaml';
import { blockList, blockMap } from './blocks.ts';
import { Context, type Marks } from './context.ts';
import { flowCollection } from './flow.ts';
import { quoted } from './problems.ts';
import { scalar } from './scalars.ts';
import type { Node, ScalarNode } from './tree.ts';

/** Nodes that aliases may add to a file before it is taken for a trap that would fill the memory. */
const ALIAS_BUDGET = 100_000;

interface Anchor {
  /** Not there while the value of the anchor is still being read. */
  node?: Node;
  /** Nodes in it, each alias counted with all it stands for. */
  size: number;
}

/**
 * Makes our nodes from the concrete syntax of the `yaml` package, for one unit, and says in an author's words what is wrong.
 * Every check that the package's own composer makes stands here or in the files beside this one; a test holds the two together.
 */
export class Composer extends Context {
  private readonly anchors = new Map<string, Anchor>();
  private count = 0;
  private addedByAliases = 0;

  override node(token: CST.Token | null | undefined, marks: Marks | undefined, emptyAt: number): Node {
    if (marks?.tag) this.tag(marks.tag);
    const mark = marks?.anchor ?? marks?.tag;
    if (mark && token?.type === 'block-seq' && !this.text.slice(mark.offset, token.offset).includes('\n'))
      this.misplaced(mark);
    if (!marks?.anchor) return this.bare(token, emptyAt);
    const name = marks.anchor.source.slice(1);
    if (name === '') this.needsQuotes(marks.anchor.offset);
    if (token?.type === 'alias') this.misplaced(marks.anchor);
    const before = this.count;
    const anchor: Anchor = { size: 0 };
    this.anchors.set(name, anchor);
    anchor.node = this.bare(token, emptyAt);
    anchor.size = this.count - before;
    return anchor.node;
  }

  private bare(token: CST.Token | null | undefined, emptyAt: number): Node {
    this.count++;
    switch (token?.type) {
      case undefined:
        return this.empty(emptyAt);
      case 'alias':
        return this.alias(token);
      case 'scalar':
        return token.source ? scalar(this, token) : this.empty(emptyAt);
      case 'single-quoted-scalar':
      case 'double-quoted-scalar':
      case 'block-scalar':
        return scalar(this, token);
      case 'block-map':
        return blockMap(this, token);
      case 'block-seq':
        return blockList(this, token);
      case 'flow-collection':
        return flowCollection(this, token);
      default:
        this.unexpected(token as { offset: number; source?: string });
        return this.empty(emptyAt);
    }
  }

  private alias(token: CST.FlowScalar): Node {
    const { offset, source } = token;
    const end = offset + source.length;
    const name = source.slice(1);
    this.trailing(token.end);
    if (name === '') {
      this.needsQuotes(offset);
      return this.asWritten(offset, end);
    }
    const anchor = this.anchors.get(name);
    if (!anchor) {
      this.report('unknown-alias', offset, end, `${quoted(source)} refers to nothing above it`, {
        detail: `A text that begins with \`*\` refers to a value marked ${quoted(`&${name}`)} further up.`,
        help: 'put the text in quotes, or write the value itself',
      });
      return this.asWritten(offset, end);
    }
    if (!anchor.node) {
      this.report('cyclic-alias', offset, end, `${quoted(source)} stands inside the value it refers to`, {
        help: 'write the value itself',
      });
      return this.empty(offset);
    }
    if (this.addedByAliases + anchor.size > ALIAS_BUDGET) {
      this.report('too-many-aliases', offset, end, `References grow beyond ${ALIAS_BUDGET} values`, {
        detail: `${quoted(source)} and the references within it would fill the memory.`,
        help: 'write the values themselves',
      });
      return this.empty(offset);
    }
    this.addedByAliases += anchor.size;
    this.count += anchor.size;
    return anchor.node;
  }

  private asWritten(start: number, end: number): ScalarNode {
    return { kind: 'scalar', span: this.span(start, end), text: this.text.slice(start, end), quoted: false };
  }

  private tag({ offset, source }: CST.SourceToken): void {
    this.report('tag-without-meaning', offset, offset + source.length, `Tag ${quoted(source)} has no meaning here`, {
      detail: 'A text that begins with `!` is a tag in YAML; every value in these files is taken as it is written.',
      help: 'remove the tag, or put the text in quotes',
    });
  }
}
