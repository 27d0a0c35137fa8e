import type { ProcedureView } from '../../server/src/analysis/view.ts';
import { Workspace } from '../../server/src/analysis/workspace.ts';
import { existsIn } from '../../server/src/model/common.ts';
import { stepIn } from '../../server/src/model/step.ts';
import { forgetReadings } from './forget-readings.ts';

export interface PlantReadings {
  readonly ranges: number;
  /** Processor time, and by the clock. */
  readonly cpuMs: number;
  readonly wallMs: number;
}

interface Texts {
  readonly systemName: string;
  readonly system: string;
  readonly procedureName: string;
  readonly procedure: string;
}

/** The ranges of so many measuring steps of a plant in its two variants, each at two temperatures; nothing of it is known before. */
export function plantReadings(texts: Texts, steps: number): PlantReadings {
  forgetReadings();
  const views = ['25 °C', '-10 °C'].map(temperature =>
    procedureOn({ ...texts, system: texts.system.replace('25 °C', temperature) }),
  );
  const began = process.cpuUsage();
  const start = performance.now();
  const ranges = views.reduce((sum, view) => sum + readAll(view, steps), 0);
  const { user, system } = process.cpuUsage(began);
  return { ranges, cpuMs: (user + system) / 1000, wallMs: performance.now() - start };
}

function procedureOn({ systemName, system, procedureName, procedure }: Texts): ProcedureView {
  const workspace = new Workspace();
  workspace.set(`file:///${systemName}`, system);
  workspace.set(`file:///${procedureName}`, procedure);
  const view = workspace.view(`file:///${procedureName}`);
  if (view?.kind !== 'procedure') throw new Error('there is no procedure');
  return view;
}

function readAll(view: ProcedureView, most: number): number {
  let ranges = 0;
  for (const { circuit, flow, variant } of view.cases) {
    let steps = 0;
    for (const step of view.procedure.steps.values()) {
      if (!existsIn(step, variant)) continue;
      const { action } = stepIn(step, variant);
      if (action.verb !== 'measure' || ++steps > most) continue;
      for (const now of flow.during(step.id)) {
        circuit.read(action, view.procedure.meter, now);
        ranges++;
      }
    }
  }
  return ranges;
}
