import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse as parseYaml, stringify } from 'yaml';
import { kinds, problemsIn, shown, validator } from './support.ts';

/**
 * One change to a file that is right, at any place: our check and a general-purpose validator both take the result or both
 * refuse it. Three differences are meant and are not made here: an empty text is no value to us, `true` and `false` are no other
 * way to write `on` and `off`, and a file of a later format is not looked at further.
 */
describe.each(kinds)('our check and a general-purpose validator agree on a %s file', kind => {
  const whole: unknown = parseYaml(shown[kind]);
  const places = placesIn(whole);

  it('after any one change', () => {
    const outcomes = { taken: 0, refused: 0 };
    const change = fc.tuple(fc.nat(places.length - 1), fc.constantFrom(...changes), fc.nat());
    fc.assert(
      fc.property(change, ([at, apply, choice]) => {
        const root = structuredClone(whole);
        apply(root, places[at]!, choice);
        const text = stringify(root, { nullStr: '' });
        const ours = problemsIn(kind, text).map(problem => problem.message);
        const taken = validator(kind)(root);
        expect(ours.length === 0, `${places[at]!.join(' / ')}: ${ours.join('; ')}`).toBe(taken);
        outcomes[taken ? 'taken' : 'refused']++;
      }),
      { numRuns: 300, seed: 1 },
    );
    expect(Math.min(outcomes.taken, outcomes.refused)).toBeGreaterThan(30);
  }, 60_000);
});

type Path = readonly (string | number)[];
type Change = (root: unknown, path: Path, choice: number) => void;

const changes: readonly Change[] = [
  // The place is left out.
  (root, path) => {
    const { owner, key } = ownerOf(root, path);
    if (Array.isArray(owner)) owner.splice(Number(key), 1);
    else delete owner[key];
  },
  // Its key has a letter too many, or lacks one.
  (root, path, choice) => {
    const { owner, key } = ownerOf(root, path);
    if (Array.isArray(owner)) return;
    const { [key]: value } = owner;
    delete owner[key];
    const at = choice % String(key).length;
    const name = String(key);
    owner[choice % 2 === 0 ? `${name.slice(0, at)}q${name.slice(at)}` : name.slice(0, at) + name.slice(at + 1) || 'q'] =
      value;
  },
  // Something of another shape stands there.
  (root, path, choice) => {
    const { owner, key } = ownerOf(root, path);
    owner[key] = [['a', 'b'], { key: 'run' }, 'some text', 12, [], {}, null, [{ when: { key: 'run' } }]][choice % 8];
  },
  // A key that belongs elsewhere stands beside it.
  (root, path, choice) => {
    const { owner } = ownerOf(root, path);
    if (Array.isArray(owner)) return;
    const names = [
      'kind',
      'title',
      'only',
      'measure',
      'then',
      'replace',
      'red',
      'rating',
      'from',
      'states',
      'danger',
      'code',
      'by variant',
    ];
    const name = names[choice % names.length]!;
    if (!(name in owner)) owner[name] = 'a word';
  },
];

function ownerOf(root: unknown, path: Path): { owner: Record<string | number, unknown>; key: string | number } {
  const owner = path.slice(0, -1).reduce<unknown>((node, key) => (node as Record<string | number, unknown>)[key], root);
  return { owner: owner as Record<string | number, unknown>, key: path.at(-1)! };
}

/** The way to every entry and item. */
function placesIn(node: unknown, path: Path = []): Path[] {
  if (typeof node !== 'object' || node === null) return [];
  const keys = Array.isArray(node) ? [...node.keys()] : Object.keys(node);
  return keys.flatMap(key => {
    const way = [...path, key];
    return [way, ...placesIn((node as Record<string | number, unknown>)[key], way)];
  });
}
