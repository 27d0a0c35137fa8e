import type { Fault } from '../../../server/src/analysis/faults/fault.ts';
import type { EndingData } from '../../../server/src/model/procedure.ts';

/**
 * A name means the fault that has it as its id; else those of its owner and kind; else all that mending a thing removes, and all
 * that a thing is the owner of.
 */
export function means(text: string, fault: Fault, all: readonly Fault[]): boolean {
  if (fault.owner === text) return true;
  if (all.some(({ id }) => id === text)) return fault.id === text;
  const kinds = ({ id, owner, kind, mendedBy: [one, other] }: Fault) => [
    `${owner} ${kind}`,
    id.slice(0, id.indexOf(` ${kind}`) + kind.length + 1),
    ...(other !== undefined && kind === `short to ${other}` ? [`${other} short to ${one}`] : []),
  ];
  if (all.some(one => kinds(one).includes(text))) return kinds(fault).includes(text);
  return fault.mendedBy.includes(text);
}

export function resultOf({ kind, items }: EndingData, fault: Fault | undefined): string {
  const names = items.map(({ text }) => text);
  const isRepair = kind === 'replace' || kind === 'mend' || kind === 'adjust';
  if (isRepair || (kind === 'refer' && names.length > 0)) {
    const good = names.filter(name => !fault?.mendedBy.includes(name));
    return good.length === 0 ? 'right' : good.length === names.length ? 'wrong part' : 'several';
  }
  if (kind === 'refer' || kind === 'continue in') return 'handed on';
  return fault ? 'not found' : 'right';
}
