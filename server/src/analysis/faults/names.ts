import type { Fault } from './fault.ts';

type Named = Pick<Fault, 'id' | 'owner' | 'kind' | 'mendedBy'>;

/**
 * The faults that a written name means: one by its id; all of one kind, `X1 open` for each cavity of the connector and `W41 open` for
 * each piece of the wire; all that a repair of a thing removes, `W41`.
 */
export function faultsNamed<F extends Named>(faults: readonly F[], name: string): readonly F[] {
  const exact = faults.filter(f => f.id === name);
  if (exact.length > 0) return exact;
  const ofKind = faults.filter(f => kindNames(f).includes(name));
  return ofKind.length > 0 ? ofKind : faults.filter(f => f.mendedBy.includes(name));
}

/** Names of a fault that may mean others as well; of two wires that touch, either may be named first. */
export function kindNames({ id, owner, kind, mendedBy }: Named): readonly string[] {
  const [one, other] = mendedBy;
  const turned = other !== undefined && kind === `short to ${other}` ? [`${other} short to ${one}`] : [];
  const joint = id.includes(` ${kind}`) ? id.slice(0, id.indexOf(` ${kind}`) + kind.length + 1) : id;
  return [...new Set([`${owner} ${kind}`, joint, ...turned])];
}
