import type { ResultName } from '../../../server/src/protocol/coverage.ts';
import { stretch, svg } from './marks.ts';

/** So wide is a drawing of the whole; the page scales it. Patterns are not scaled, so each bar is drawn anew for its own width. */
interface Part {
  readonly result: ResultName;
  readonly share: number;
}

/** Parts of a whole side by side, with a small gap between them; `whole` 1 fills the width. */
export function bar(parts: readonly Part[], height: number, whole = 1): SVGSVGElement {
  const drawn = svg('svg', { class: 'bar-drawing', height: `${height}`, 'aria-hidden': 'true' });
  const draw = () => {
    const width = drawn.clientWidth;
    if (width === 0) return;
    let x = 0.5;
    drawn.replaceChildren(
      ...parts.map(({ result, share }) => {
        const own = (share / whole) * (width - 1);
        const made = stretch(result, x, own - gap, height);
        x += own;
        return made;
      }),
    );
  };
  new ResizeObserver(draw).observe(drawn);
  return drawn;
}

const gap = 2;
