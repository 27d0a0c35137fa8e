import type { FileView } from '../../analysis/view.ts';
import { formatRange } from '../../base/quantity/format.ts';
import { wireOhms } from '../../circuit/conductor/wire.ts';
import type { Entry } from '../../model/common.ts';
import type { System, Wire } from '../../model/system.ts';
import type { Thing } from '../names/thing.ts';
import type { Project } from '../project.ts';
import { readingInWords } from './reading.ts';

/** What a name stands for: what the text does not say by itself and, unless it is known, the text that declares it. */
export function thingHover(project: Project, thing: Thing, withSource: boolean): string | undefined {
  const view = project.view(thing.uri);
  if (!view) return undefined;
  const heading = `**${thing.name}** · ${thing.kind}${thing.owner === undefined ? '' : ` of ${thing.owner}`}`;
  const entry = withSource ? entryOf(view, thing) : undefined;
  return [heading, moreAbout(view, thing), entry ? source(view, entry) : ''].filter(part => part !== '').join('\n\n');
}

function entryOf(view: FileView, { kind, name, owner }: Thing): Entry | undefined {
  if (view.kind === 'procedure') {
    if (kind === 'step') return view.procedure.steps.get(name)?.entry;
    return kind === 'ending' ? view.procedure.endings.get(name)?.entry : undefined;
  }
  if (view.kind !== 'system') return undefined;
  const { parts, connectors, grounds, splices, wires, conditions, specifications, variantDecls } = view.system;
  const module = owner === undefined ? undefined : parts.get(owner)?.data;
  switch (kind) {
    case 'part':
      return parts.get(name)?.entry;
    case 'connector':
      return connectors.get(name)?.entry;
    case 'ground':
      return grounds.get(name)?.entry;
    case 'splice':
      return splices.get(name)?.entry;
    case 'wire':
      return wires.find(wire => wire.id === name)?.entry;
    case 'condition':
      return conditions.get(name)?.entry;
    case 'variant':
      return variantDecls.get(name)?.entry;
    case 'specification':
      return specifications.get(name)?.entry;
    case 'row':
      return owner === undefined ? undefined : specifications.get(owner)?.rows.get(name)?.entry;
    case 'terminal':
      return module?.kind === 'module' ? module.pins.get(name)?.entry : undefined;
    case 'scan datum':
      return module?.kind === 'module' ? module.scanData.get(name)?.entry : undefined;
    default:
      return undefined;
  }
}

/** What the circuit gives at a step, the resistance of a wire, where a point leads. */
function moreAbout(view: FileView, thing: Thing): string {
  const step = view.kind === 'procedure' && thing.kind === 'step' ? view.procedure.steps.get(thing.name) : undefined;
  if (view.kind === 'procedure' && step) return readingInWords(view, step) ?? '';
  return view.kind === 'system' ? moreInSystem(view.system, thing) : '';
}

function moreInSystem(system: System, { kind, name, owner }: Thing): string {
  if (kind === 'wire') {
    const wire = system.wires.find(one => one.id === name);
    return wire ? resistanceOf(wire, system.temperatureC) : '';
  }
  if (kind === 'state' && owner !== undefined) {
    const states = system.conditions.get(owner)?.states;
    return states?.[0]?.text === name ? 'the state at rest' : '';
  }
  const point = kind === 'terminal' ? `${owner}.${name}` : kind === 'cavity' ? `${owner}/${name}` : name;
  if (!['terminal', 'cavity', 'ground', 'splice'].includes(kind)) return '';
  const wires = system.wires.filter(wire => [wire.from, ...wire.through, wire.to].some(ref => ref?.text === point));
  return wires.length === 0
    ? 'no wire leads here'
    : `wires: ${[...new Set(wires.map(wire => `\`${wire.id}\``))].join(', ')}`;
}

function resistanceOf({ statedOhms, size, lengthM, strands }: Wire, temperatureC: number): string {
  if (statedOhms) return formatRange(statedOhms.low, statedOhms.high, 'resistance');
  if (!size || lengthM === undefined) return 'counts as ideal: neither size and length nor a resistance are given';
  const { low, high } = wireOhms(size, lengthM, temperatureC, strands);
  return `${formatRange(low, high, 'resistance', 'outward')} from size and length at ${temperatureC} °C`;
}

const mostLines = 16;

/** The entry as the author wrote it, moved to the left margin. */
function source(view: FileView, entry: Entry): string {
  const { start, end } = view.tree.absolute(entry.span);
  if (end === 0) return '';
  const { text } = view.tree;
  const margin = start - Math.max(text.lastIndexOf('\n', start - 1), text.lastIndexOf('\r', start - 1)) - 1;
  const lines = text.slice(start, end).split(/\r\n|\r|\n/);
  const moved = lines.map((line, i) =>
    i === 0 ? line : line.slice(Math.min(margin, line.length - line.trimStart().length)),
  );
  const shown = moved.length > mostLines ? [...moved.slice(0, mostLines), '…'] : moved;
  return `\`\`\`yaml\n${shown.join('\n').replaceAll('```', "'''")}\n\`\`\``;
}
