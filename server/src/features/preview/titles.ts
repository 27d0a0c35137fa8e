import { type Ending, type EndingData, endingIn, type Procedure } from '../../model/procedure.ts';
import { stepIn } from '../../model/step.ts';
import type { System } from '../../model/system.ts';

/** What the system calls a part, wire, connector, ground, splice or condition beside its name. */
export function titleOf(system: System | undefined, name: string): string | undefined {
  if (!system) return undefined;
  const { parts, connectors, grounds, splices, conditions } = system;
  const found = [parts, connectors, grounds, splices, conditions].map(things => things.get(name)?.title);
  return found.find(title => title !== undefined);
}

/** The title where it says more than the name: `engine` needs no `Engine` beside it. */
export function noteOn(system: System | undefined, name: string): string | undefined {
  const title = titleOf(system, name);
  return title?.toLowerCase() === name.toLowerCase() ? undefined : title;
}

/** Of a point the title of its owner: `A1.14`, `X12/3`, `GND-4`. */
export function pointTitle(system: System | undefined, point: string): string | undefined {
  const whole = titleOf(system, point);
  if (whole !== undefined) return whole;
  const cut = Math.max(point.lastIndexOf('.'), point.lastIndexOf('/'));
  return cut > 0 ? titleOf(system, point.slice(0, cut)) : undefined;
}

/** How a step or an ending is called in a list; its name where it has no title. */
export function standingTitle(procedure: Procedure, variant: string, name: string): string {
  const step = procedure.steps.get(name);
  if (step) return stepIn(step, variant).title ?? name;
  const ending = procedure.endings.get(name);
  return ending ? endingTitle(ending, endingIn(ending, variant)) : name;
}

export function endingTitle(ending: Ending, data: EndingData): string {
  const items = data.items.map(item => item.text).join(', ');
  switch (data.kind) {
    case 'replace':
      return `Replace ${items}`;
    case 'mend':
      return `Mend ${items}`;
    case 'adjust':
      return `Adjust ${items}`;
    case 'no fault':
      return `No fault: ${data.text ?? ''}`;
    case 'repaired':
      return `Repaired: ${data.text ?? ''}`;
    case 'refer':
      return `Refer: ${data.text ?? ''}`;
    case 'continue in':
      return `Continue in ${data.file?.text ?? ''}`;
    case 'none':
      return ending.id;
  }
}
