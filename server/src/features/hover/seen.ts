import type { FileView, ProcedureView } from '../../analysis/view.ts';
import type { TestPart } from '../../model/common.ts';
import type { Procedure } from '../../model/procedure.ts';
import { type Sight, sightsIn } from '../../model/sights.ts';
import { systemsOf } from '../names/names-in.ts';
import { touches } from '../project.ts';
import type { Hover } from './known.ts';

/** What the state at the offset says of what the machine does, where no file declares that state. */
export function seenHover(view: FileView, offset: number): Hover | undefined {
  if (view.kind !== 'procedure') return undefined;
  for (const { name, states } of seenIn(view.procedure)) {
    for (const { text, place } of states) {
      const stretch = view.tree.absolute(place.span);
      if (!touches(stretch, offset)) continue;
      const said = meaning(view, name.text, text);
      return said === undefined ? undefined : { ...stretch, markdown: `**${text}** · of ${name.text}\n\n${said}` };
    }
  }
  return undefined;
}

function seenIn({ entries, steps }: Procedure): readonly TestPart[] {
  const branches = [...steps.values()].flatMap(({ data, byVariant }) =>
    [data, ...byVariant.values()].flatMap(d => d.branches),
  );
  return [...entries, ...branches].flatMap(({ when }) => when ?? []).flat();
}

function meaning(view: ProcedureView, name: string, state: string): string | undefined {
  for (const system of systemsOf(view)) {
    const sight = sightsIn(system).get(name);
    if (!sight) continue;
    if (sight.states.length === 0) return `Holds while \`${name}\` shows ${state}.`;
    const kind = system.parts.get(name)?.data.kind;
    return onAndOff[kind === 'relay' || kind === 'module' ? kind : sight.sort]?.[state];
  }
  return undefined;
}

const onAndOff: Partial<Record<Sight['sort'] | 'relay' | 'module', Readonly<Record<string, string>>>> = {
  load: {
    on: 'It has the voltage to do its work: a lamp is bright, a coil holds, a motor turns.',
    off: 'It has too little voltage to do anything that is seen.',
  },
  relay: { on: 'Its coil has pulled in.', off: 'Its coil has dropped out.' },
  module: { on: 'It has its power.', off: 'It has no power.' },
  output: { on: 'The module drives it.', off: 'The module does not drive it.' },
};
