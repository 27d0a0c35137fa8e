import * as fs from 'node:fs';
import * as path from 'node:path';
import type { Circuit } from '../../server/src/analysis/electrical.ts';
import { faultsOf } from '../../server/src/analysis/faults/derive.ts';
import { effectOf } from '../../server/src/analysis/faults/effect-of.ts';
import type { ProcedureView } from '../../server/src/analysis/view.ts';
import { Workspace } from '../../server/src/analysis/workspace.ts';
import { existsIn } from '../../server/src/model/common.ts';
import { stepIn } from '../../server/src/model/step.ts';
import { forgetReadings } from './forget-readings.ts';

/** What faults of an example cost at all steps of its procedures that measure or read. */
export interface FaultReadings {
  readonly title: string;
  readonly faults: number;
  readonly readings: number;
  /** Processor time of all of them, on circuits that have read nothing yet. */
  readonly cpuMs: number;
}

/** One in `every` electrical faults at every measuring or reading step, in each situation in which a machine without a fault comes to it. */
export function faultReadings(examples: string, name: string, every: number): FaultReadings {
  forgetReadings();
  const views = proceduresOf(path.join(examples, name));
  let readings = 0;
  const faults = new Set<string>();
  let count = 0;
  const began = process.cpuUsage();
  for (const view of views) {
    for (const { circuit, flow, variant, system } of view.cases) {
      for (const fault of faultsOf(system, variant)) {
        if (fault.changes.length === 0 || fault.excluded) continue;
        if (count++ % every !== 0) continue;
        faults.add(fault.id);
        const effect = effectOf(fault);
        for (const step of view.procedure.steps.values()) {
          if (!existsIn(step, variant)) continue;
          const { action } = stepIn(step, variant);
          for (const now of flow.during(step.id)) {
            if (readAt(circuit, action, view, now, effect) !== undefined) readings++;
          }
        }
      }
    }
  }
  const { user, system } = process.cpuUsage(began);
  return { title: name, faults: faults.size, readings, cpuMs: (user + system) / 1000 };
}

type Asked = Parameters<Circuit['read']>;

function readAt(
  circuit: Circuit,
  action: ReturnType<typeof stepIn>['action'],
  { procedure }: ProcedureView,
  now: Asked[2],
  effect: Asked[3],
): unknown {
  if (action.verb === 'measure') return circuit.read(action, procedure.meter, now, effect);
  if (action.verb !== 'read' || !action.module || !action.datum) return undefined;
  const [module, datum] = [action.module.text, action.datum.text];
  return circuit.scan(module, datum, now, effect) ?? circuit.scanVoltage(module, datum, now, effect) ?? 'not decided';
}

function proceduresOf(folder: string): readonly ProcedureView[] {
  const workspace = new Workspace();
  for (const file of fs.readdirSync(folder))
    workspace.set(`file:///${file}`, fs.readFileSync(path.join(folder, file), 'utf8'));
  return workspace.uris().flatMap(uri => {
    const view = workspace.view(uri);
    return view?.kind === 'procedure' ? [view] : [];
  });
}
