import type { Unit } from '../base/span.ts';
import type { Part } from './parts.ts';
import type { SyntaxProblem } from './problems.ts';
import type { Node, Span, SyntaxTree, TextRange } from './tree.ts';

/** The tree of one version of a file. */
export class FileTree implements SyntaxTree {
  readonly text: string;
  readonly root: Node;
  readonly units: readonly Part[];
  readonly problems: readonly SyntaxProblem[];
  readonly readable: boolean;
  private bases: Map<Unit, number> | undefined;
  private broken: Set<Unit> | undefined;

  constructor(text: string, root: Node, units: readonly Part[], problems: readonly SyntaxProblem[], readable = true) {
    this.text = text;
    this.root = root;
    this.units = units;
    this.problems = problems.toSorted((a, b) => this.absolute(a.span).start - this.absolute(b.span).start);
    this.readable = readable;
  }

  absolute({ unit, start, end }: Span): TextRange {
    this.bases ??= new Map(this.units.map(part => [part.unit, part.base]));
    const base = this.bases.get(unit);
    return base === undefined ? { start: 0, end: 0 } : { start: base + start, end: base + end };
  }

  unitAt(offset: number): Part | undefined {
    const { units } = this;
    let low = 0;
    let high = units.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (units[middle]!.base <= offset) low = middle + 1;
      else high = middle;
    }
    return offset < 0 || offset > this.text.length ? undefined : units[low - 1];
  }

  damaged(unit: Unit): boolean {
    this.broken ??= new Set(this.problems.map(problem => problem.span.unit));
    return this.broken.has(unit);
  }
}
