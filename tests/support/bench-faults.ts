import type { BenchPart, Flat } from './bench.ts';

/**
 * A bench with a fault of the product's list, by its id and extent, as a technician means it and not as the product does it: parts are
 * taken out, shunted, or have a resistance put in line. Ids are those of `systemText`: `R3 open`, `R3-1 short to ground`,
 * `N2 high resistance at R3-2`. Throws for one that is not known here.
 */
export function withFault(flat: Flat, parts: readonly BenchPart[], id: string, extent: number | undefined): Flat {
  const [, owner = '', whole = ''] = /^(\S+) (.*)$/.exec(id)!;
  const [, kind = '', at] = /^(.*?)(?: at (\S+))?$/.exec(whole)!;
  // Where the ground is bad nothing is lost: nothing else hangs on the frame.
  if (owner === 'GND-0' && at === undefined) return flat;
  const [, name = '', end = '1'] = /^(\w+?)(?:[-.]([12AK+]|-))?$/.exec(at ?? owner)!;
  const part = parts.find(one => one.id === name);
  if (!part) throw new Error(`no part for the fault ${id}`);
  const place = end === '2' ? part.b : part.a;
  switch (kind) {
    case 'open':
    case 'blown':
    case 'dead':
      return without(flat, name);
    case 'high resistance':
    case 'resistive contact':
      return inLine(flat, name, extent!);
    case 'shorted':
      return bridged(flat, part.a, part.b, extent!);
    case 'short to ground':
      return bridged(flat, place, 0, extent!);
    case 'short to supply':
      return bridged(flat, place, parts.find(one => one.kind === 'supply')!.a, extent!);
    case 'drifted':
      return changed(flat, name, branch => ({ ...branch, ohms: branch.ohms * (1 + extent!) }));
    case 'low':
      return changed(flat, name, branch => ({ ...branch, volts: branch.volts * (1 + extent!) }));
    case 'stuck closed':
      if (part.kind !== 'switch') throw new Error(`${name} is no switch`);
      return bridged(without(flat, name), part.a, part.b, part.ohms.nominal);
    default:
      throw new Error(`the fault ${id} is not known here`);
  }
}

function without(flat: Flat, name: string): Flat {
  const others = <T extends { readonly id: string }>(list: readonly T[]) => list.filter(({ id }) => id !== name);
  return { ...flat, straight: others(flat.straight), curves: others(flat.curves) };
}

function bridged(flat: Flat, a: number, b: number, ohms: number): Flat {
  return { ...flat, straight: [...flat.straight, { id: 'fault', a, b, ohms, volts: 0 }] };
}

/** A part with a curve has what is put in line on the side of its second node, where a lamp's curve ends. */
function inLine(flat: Flat, name: string, ohms: number): Flat {
  const curve = flat.curves.find(({ id }) => id === name);
  if (!curve) return changed(flat, name, branch => ({ ...branch, ohms: branch.ohms + ohms }));
  const inside = flat.nodeCount;
  const curves = flat.curves.map(one => (one === curve ? { ...curve, b: inside } : one));
  return bridged({ ...flat, nodeCount: inside + 1, curves }, inside, curve.b, ohms);
}

type Branch = Flat['straight'][number];

function changed(flat: Flat, name: string, change: (branch: Branch) => Branch): Flat {
  return { ...flat, straight: flat.straight.map(branch => (branch.id === name ? change(branch) : branch)) };
}
