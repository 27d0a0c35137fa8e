import type { ResultName } from '../../../server/src/protocol/coverage.ts';
import { stretch, svg } from './marks.ts';

interface Part {
  readonly result: ResultName;
  readonly share: number;
}

/** Parts of a whole side by side, with a small gap between them; `whole` fills the width. */
export function bar(parts: readonly Part[], height: number, whole = 1): SVGSVGElement {
  const drawn = svg('svg', { class: 'bar-drawing', height: `${height}`, 'aria-hidden': 'true' });
  drawings.set(drawn, () => {
    const width = drawn.clientWidth;
    let x = 0.5;
    const stretches = parts.map(({ result, share }) => {
      const own = (share / whole) * (width - 1);
      x += own;
      return stretch(result, x - own, own - gap, height);
    });
    drawn.replaceChildren(...stretches);
  });
  widths.observe(drawn);
  return drawn;
}

const gap = 2;

/** Patterns must not be stretched, so a bar is drawn for the width that it has. */
const drawings = new WeakMap<Element, () => void>();
const widths = new ResizeObserver(entries => {
  for (const { target } of entries) {
    if (target.isConnected) drawings.get(target)?.();
    else widths.unobserve(target);
  }
});
