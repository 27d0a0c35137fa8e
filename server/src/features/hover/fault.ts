import { faultsOf } from '../../analysis/faults/derive.ts';
import type { Fault } from '../../analysis/faults/fault.ts';
import { faultsNamed } from '../../analysis/faults/names.ts';
import type { FileView } from '../../analysis/view.ts';
import { formatQuantity } from '../../base/quantity/format.ts';
import type { System } from '../../model/system.ts';
import { trailTo } from '../completion/trail.ts';
import type { Hover } from './known.ts';

/** What the name of a fault stands for: in words, how likely it is and where that is from. */
export function faultHover(view: FileView, offset: number): Hover | undefined {
  const trail = trailTo(view, offset);
  const last = trail.at(-1);
  if (last?.node.kind !== 'scalar') return undefined;
  const { text } = last.node;
  const isEdit = last.entry?.key === last.node && trail.at(-2)?.entry?.key.text === 'faults';
  const isShown = trail.some(({ entry }) => entry?.key.text === 'shows');
  if (!isEdit && !isShown) return undefined;
  const named = new Map(
    systemsOf(view).flatMap(({ system, variant }) =>
      faultsNamed(faultsOf(system, variant), text).map(fault => [fault.id, fault] as const),
    ),
  );
  const faults = [...named.values()];
  // What a mere name of a part is, its own hover tells.
  if (faults.length === 0 || faults.every(fault => fault.mendedBy.includes(text))) return undefined;
  return { ...view.tree.absolute(last.node.span), markdown: faults.slice(0, mostTold).map(told).join('\n\n') };
}

const mostTold = 4;

function systemsOf(view: FileView): readonly { system: System; variant: string }[] {
  if (view.kind === 'procedure') return view.cases;
  return view.kind === 'system' ? view.system.variants.map(variant => ({ system: view.system, variant })) : [];
}

function told({ id, title, likelihood, likelihoodSource, extent, mendedBy, excluded }: Fault): string {
  const far = extent && `${formatQuantity(extent.value, extent.dimension)} (${extent.source})`;
  return [
    `**${id}** · fault`,
    `${title}${far ? `: ${far}` : ''}. Mending ${mendedBy.join(' or ')} removes it.`,
    excluded === undefined ? `Likelihood ${likelihood} (${likelihoodSource})` : `Excluded: ${excluded}`,
  ].join('\n\n');
}
