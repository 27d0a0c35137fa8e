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
  readonly procedure: string;
}

/**
 * The ranges of so many measuring steps of a plant in its two variants, each at two temperatures: with nothing known before, and then
 * again for each of the values that one resistance has in turn, from the text on.
 */
export function plantReadings(texts: Texts, steps: number, changed: readonly string[]): PlantReadings[] {
  forgetReadings();
  const all = temperatures.map(temperature => ({ temperature, workspace: new Workspace() }));
  for (const { workspace } of all) workspace.set(procedureUri, texts.procedure);
  return [texts.system, ...changed].map(system => {
    const began = process.cpuUsage();
    const start = performance.now();
    let ranges = 0;
    for (const { temperature, workspace } of all) {
      workspace.set(`file:///${texts.systemName}`, system.replace(temperatures[0], temperature));
      ranges += readAll(viewIn(workspace), steps);
    }
    const { user, system: inSystem } = process.cpuUsage(began);
    return { ranges, cpuMs: (user + inSystem) / 1000, wallMs: performance.now() - start };
  });
}

const temperatures = ['25 °C', '-10 °C'] as const;
const procedureUri = 'file:///bench.procedure.yaml';

function viewIn(workspace: Workspace): ProcedureView {
  const view = workspace.view(procedureUri);
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
