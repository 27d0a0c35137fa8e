import type { Extent } from '../analysis/faults/fault.ts';
import { tidy } from '../base/quantity/decimal.ts';
import type { ListedFault } from './faults.ts';

/** The faults for other programs; `DEVELOPERS.md` describes the shape. */
export function faultsAsJson(faults: readonly ListedFault[]): string {
  const shape = {
    version: 1,
    faults: faults.map(({ fault, variants }) => {
      const { id, owner, mendedBy, kind, title, where, likelihood, likelihoodSource, severity, extent } = fault;
      const { excluded, added, changes } = fault;
      return {
        ...{ id, variants, owner, mendedBy, kind, title, where, likelihood, likelihoodSource, severity },
        ...(extent && { extent: extentShape(extent) }),
        electrical: changes.length > 0,
        ...{ excluded, added },
      };
    }),
  };
  return `${JSON.stringify(shape, undefined, 2)}\n`;
}

function extentShape({ dimension, value, source }: Extent) {
  return { value: tidy(value), unit: units[dimension], source };
}

const units: Record<Extent['dimension'], string> = { resistance: 'Ω', ratio: '1', voltage: 'V' };
