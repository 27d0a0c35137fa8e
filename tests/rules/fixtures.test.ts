import { describe, it } from 'vitest';
import { diagnostics } from '../support/check.ts';
import { allow } from './fixtures/allow.ts';
import { badInput } from './fixtures/bad-input.ts';
import { circuit } from './fixtures/circuit.ts';
import { conditions } from './fixtures/conditions.ts';
import { limits } from './fixtures/limits.ts';
import { names } from './fixtures/names.ts';
import { parts } from './fixtures/parts.ts';
import { proof } from './fixtures/proof.ts';
import { safety } from './fixtures/safety.ts';
import { samples } from './fixtures/samples.ts';
import { seen } from './fixtures/seen.ts';
import { structure } from './fixtures/structure.ts';

describe.each([
  ['names', names],
  ['what is seen', seen],
  ['structure', structure],
  ['limits', limits],
  ['circuit', circuit],
  ['conditions', conditions],
  ['parts', parts],
  ['bad input', badInput],
  ['safety', safety],
  ['proof', proof],
  ['samples', samples],
  ['allow', allow],
])('%s', (_group, fixtures) => {
  it.each(Object.entries(fixtures))('%s', (_what, fixture) => diagnostics(fixture));
});
