import type { ProvedDiagnostic } from './work.ts';

/**
 * Findings of an earlier text where they stand in a later one: what lies behind the edit moves with it, and what the edit touches is
 * gone. They stay in the editor until there are new ones.
 */
export function carried(
  found: readonly ProvedDiagnostic[],
  before: string,
  after: string,
  uri: string,
): readonly ProvedDiagnostic[] {
  const start = sameFromStart(before, after);
  const tail = sameFromEnd(before, after, start);
  const [endBefore, moved] = [before.length - tail, after.length - before.length];
  const place = <T extends { start: number; end: number }>(one: T): T | undefined => {
    if (one.end <= start) return one;
    return one.start >= endBefore ? { ...one, start: one.start + moved, end: one.end + moved } : undefined;
  };
  return found.flatMap(one => {
    const related = one.related.flatMap(other => (other.uri === uri ? (place(other) ?? []) : other));
    const own = place(one);
    return own ? [{ ...own, related }] : [];
  });
}

function sameFromStart(a: string, b: string): number {
  const most = Math.min(a.length, b.length);
  let i = 0;
  while (i < most && a.charCodeAt(i) === b.charCodeAt(i)) i++;
  return i;
}

function sameFromEnd(a: string, b: string, start: number): number {
  const most = Math.min(a.length, b.length) - start;
  let i = 0;
  while (i < most && a.charCodeAt(a.length - 1 - i) === b.charCodeAt(b.length - 1 - i)) i++;
  return i;
}
