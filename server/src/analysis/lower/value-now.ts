import type { Ranged } from '../../base/ranged.ts';
import type { Value } from '../../model/common.ts';
import { holds } from '../test.ts';
import type { Surroundings } from './surroundings.ts';

/** The case that holds now, or the first without a test. */
export function valueNow(value: Value | undefined, around: Surroundings): Ranged | undefined {
  return value?.cases.find(c => c.when === undefined || holds(c.when, name => around.stateOf(name)) === true)?.is;
}
