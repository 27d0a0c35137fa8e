import { nowhere, unwritten } from '../base/place.ts';
import type { ScalarNode } from '../syntax/tree.ts';
import type { Reader } from './reader.ts';
import type { Lead } from './step.ts';

/** `X12/3 (S6 side)`, `A1.14 (back-probe)`, `A1.14 (harness side, back-probe)`. */
export function readLead(reader: Reader, node: ScalarNode): Lead {
  const { text } = node;
  const open = text.indexOf(' (');
  const place = reader.place(node.span);
  if (open < 0 || !text.endsWith(')')) return { place, point: { text: text.trim(), place }, backProbe: false };
  const point = { text: text.slice(0, open).trim(), place: reader.within(node, 0, open) };
  let lead: Lead = { place, point, backProbe: false };
  let at = open + 2;
  for (const remark of text.slice(open + 2, -1).split(',')) {
    lead = { ...lead, ...readRemark(reader, node, remark, at) };
    at += remark.length + 1;
  }
  return lead;
}

/** A lead that no file speaks of: from behind where a plug is mated, unless said otherwise. */
export function leadTo(point: string, more: Partial<Lead> = {}): Lead {
  return { place: nowhere, point: unwritten(point), backProbe: true, ...more };
}

function readRemark(reader: Reader, node: ScalarNode, remark: string, at: number): Partial<Lead> {
  const word = remark.trim();
  const start = at + remark.indexOf(word);
  const place = reader.within(node, start, start + word.length);
  if (/^back[- ]?prob(e|ed|ing)$/.test(word)) return { backProbe: true };
  if (word.endsWith(' side')) {
    const text = word.slice(0, -' side'.length).trim();
    return { side: { text, place: reader.within(node, start, start + text.length) } };
  }
  reader.report('unreadable-lead', place, `\`${word}\` says nothing about a lead`, {
    detail: 'Behind a point stand `(back-probe)`, or the side of a plug: `(S6 side)`, `(harness side)`, `(part side)`.',
    help: 'Correct the remark or leave it out.',
  });
  return {};
}
