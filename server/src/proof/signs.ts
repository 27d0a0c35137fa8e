import type { Effect } from '../analysis/effect.ts';
import type { Circuit } from '../analysis/electrical.ts';
import type { Situation } from '../analysis/situation.ts';
import { stateOf } from '../analysis/situation.ts';
import { holds, type Verdict } from '../analysis/test.ts';
import { formatQuantity } from '../base/quantity/format.ts';
import type { Test } from '../model/common.ts';

/** Whether a test of what the machine does holds; undefined where tolerances leave it open or the circuit does not tell. */
export function signHolds(test: Test, circuit: Circuit, now: Situation, effect: Effect | undefined): Verdict {
  return holds(test, name => statesShown(name, circuit, now, effect));
}

/** Every state that a condition, a load, an output or scan data may be in. */
export function statesShown(
  name: string,
  circuit: Circuit,
  now: Situation,
  effect: Effect | undefined,
): readonly string[] {
  const own = stateOf(now, name);
  if (own.length > 0) return own;
  const works = circuit.works(name, now, effect);
  if (works.length > 0) return works;
  const named = circuit.datumNamed(name);
  if (!named) return [];
  const { module, datum, isState } = named;
  if (isState) return circuit.scanStates(module, datum, now, effect);
  const volts = circuit.scanVoltage(module, datum, now, effect);
  // A limit such as `below 9 V` is held against both ends.
  return volts?.state === 'number'
    ? [...new Set([volts.nominal, volts.low, volts.high])].map(value => formatQuantity(value, volts.dimension))
    : [''];
}
