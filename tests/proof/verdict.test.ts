import { describe, expect, it } from 'vitest';
import { isRightly, verdictAt } from '../../server/src/proof/verdict.ts';
import { patientOn, procedureOn } from './support.ts';

const view = procedureOn(`
steps: { look: { do: Look, then: one } }
endings:
  one: { replace: [R1] }
  wire: { mend: [W3] }
  several: { replace: [R1, R2] }
  other: { replace: [R2] }
  others: { mend: [R2, S1] }
  nothing: { no fault: Nothing was found }
  works: { repaired: It works }
  referred: { refer: To the maker }
  blamed: { refer: To the maker, suspect: [R1] }
  wrongly-blamed: { refer: To the maker, suspect: [R2] }
  elsewhere: { continue in: other.procedure.yaml }
`);
const ending = (name: string) => view.procedure.endings.get(name)!.data;

describe('what an ending is', () => {
  it.each([
    ['R1 open', 'one', 'right'],
    ['R1 open', 'several', 'several'],
    ['R1 open', 'other', 'wrong part'],
    ['R1 open', 'others', 'wrong part'],
    ['R1 open', 'nothing', 'not found'],
    ['R1 open', 'works', 'not found'],
    ['R1 open', 'referred', 'handed on'],
    ['R1 open', 'blamed', 'right'],
    ['R1 open', 'wrongly-blamed', 'wrong part'],
    ['R1 open', 'elsewhere', 'handed on'],
    // A bad terminal goes with the wire that ends there, never with the part.
    ['R1.1 open', 'wire', 'right'],
    ['R1.1 open', 'one', 'wrong part'],
    [undefined, 'one', 'wrong part'],
    [undefined, 'blamed', 'wrong part'],
    [undefined, 'nothing', 'right'],
    [undefined, 'works', 'right'],
    [undefined, 'referred', 'handed on'],
    [undefined, 'elsewhere', 'handed on'],
  ])('with %s at `%s`: %s', (fault, name, expected) => {
    expect(verdictAt(ending(name), patientOn(view, fault).faults)).toBe(expected);
  });

  it('with two faults, needs one of their repairs, and blames neither for the other', () => {
    const faults = ['R1 open', 'R2 open'].flatMap(id => patientOn(view, id).faults);
    expect(['one', 'several', 'others', 'wire'].map(name => verdictAt(ending(name), faults))).toEqual([
      'right',
      'right',
      'several',
      'wrong part',
    ]);
  });

  it('is followed by its confirmation only where the repair removes a fault', () => {
    const { faults } = patientOn(view, 'R1 open');
    const names = ['one', 'several', 'other', 'nothing', 'blamed'];
    expect(names.filter(name => isRightly(ending(name), faults))).toEqual(['one', 'several']);
  });
});
