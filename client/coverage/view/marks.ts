import type { ResultName } from '../../../server/src/protocol/coverage.ts';

/** How results are told apart without their colour: the better, the lighter, and each with a pattern of its own. */
const patterns: Record<
  ResultName,
  readonly (readonly [tag: 'rect' | 'path' | 'circle', attributes: Record<string, string>])[]
> = {
  right: [['rect', { width: '6', height: '6', 'fill-opacity': '0.3' }]],
  several: [['path', { d: 'M-1.5 1.5 L1.5 -1.5 M0 6 L6 0 M4.5 7.5 L7.5 4.5', 'stroke-width': '1.75' }]],
  'handed on': [['circle', { cx: '3', cy: '3', r: '1.1' }]],
  unknown: [['path', { d: 'M3 0 V3', 'stroke-width': '1.25' }]],
  stuck: [['path', { d: 'M0 0 L6 6 M6 0 L0 6', 'stroke-width': '1.5' }]],
  'not found': [['path', { d: 'M0 1.5 H6 M0 4.5 H6', 'stroke-width': '1.75' }]],
  'wrong part': [['rect', { width: '6', height: '6' }]],
};

/** The patterns that all drawings of the page fill with; stands in it once. */
export function patternSheet(): SVGSVGElement {
  const sheet = svg('svg', { class: 'patterns', width: '0', height: '0', 'aria-hidden': 'true' });
  for (const [result, shapes] of Object.entries(patterns)) {
    const pattern = svg('pattern', {
      id: idOf(result as ResultName),
      class: classOf(result as ResultName),
      width: '6',
      height: '6',
      patternUnits: 'userSpaceOnUse',
    });
    pattern.append(...shapes.map(([tag, attributes]) => svg(tag, attributes)));
    sheet.append(pattern);
  }
  return sheet;
}

/** A stretch of a drawing that stands for a result: its outline, and within it the pattern. */
export function stretch(result: ResultName, x: number, width: number, height: number): SVGGElement {
  const box = { x: `${x}`, y: '0.5', width: `${Math.max(width, 1)}`, height: `${height - 1}` };
  const drawn = svg('g', { class: classOf(result) });
  drawn.append(svg('rect', { ...box, fill: `url(#${idOf(result)})` }), svg('rect', { ...box, class: 'outline' }));
  return drawn;
}

/** The mark that stands before the name of a result. */
export function mark(result: ResultName): SVGSVGElement {
  const drawn = svg('svg', { class: 'mark', width: '18', height: '12', viewBox: '0 0 18 12', 'aria-hidden': 'true' });
  drawn.append(stretch(result, 0.5, 17, 12));
  return drawn;
}

export function classOf(result: ResultName): string {
  return `is-${result.replace(' ', '-')}`;
}

function idOf(result: ResultName): string {
  return `pattern-${result.replace(' ', '-')}`;
}

export function svg<K extends keyof SVGElementTagNameMap>(
  tag: K,
  attributes: Record<string, string>,
): SVGElementTagNameMap[K] {
  const made = document.createElementNS('http://www.w3.org/2000/svg', tag);
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
  return made;
}
