import * as fs from 'node:fs';
import { describe, expect, it } from 'vitest';
import { dimensionFacts } from '../../server/src/base/quantity/dimension.ts';
import { isTakenByValidator, kinds, problemsIn, schemaOf, shown, validator } from './support.ts';

type Raw = Record<string, unknown>;

const places = kinds.flatMap(kind => [...placesIn(schemaOf(kind), kind)]);

describe.each(kinds)('the schema of a %s file', kind => {
  it('compiles in a general-purpose validator', () => expect(validator(kind)).toBeTypeOf('function'));

  it('takes the file on the page for contributors, as our own check does', () => {
    expect(problemsIn(kind, shown[kind]).map(problem => problem.message)).toEqual([]);
    expect(isTakenByValidator(kind, shown[kind])).toBe(true);
  });
});

describe('the schemas', () => {
  it('explain every key', () => {
    const silent = keys().filter(
      ({ schema, raw }) => typeof raw.description !== 'string' && !target(schema, raw).description,
    );
    expect(silent.map(({ where }) => where)).toEqual([]);
  });

  it('show how the value of every key is written', () => {
    const bare = keys().filter(({ schema, raw }) => {
      const whole: Raw = { ...target(schema, raw), ...raw };
      return !whole.examples && !whole.enum && whole.const === undefined;
    });
    expect(bare.map(({ where }) => where)).toEqual([]);
  });

  it('explain in whole sentences, without a word of computing', () => {
    const texts = places.flatMap(({ where, raw }) =>
      typeof raw.description === 'string' ? [{ where, text: raw.description }] : [],
    );
    expect(texts.length).toBeGreaterThan(300);
    const words =
      /\b(string|object|array|boolean|integer|null|schema|property|identifier|enum|NaN|undefined|please|invalid|illegal)\b/i;
    expect(texts.filter(({ text }) => !/^[A-Z`].*[.?]$/.test(text) || words.test(text))).toEqual([]);
  });

  it('name every map that takes only known keys, for the messages', () => {
    const nameless = places.filter(({ raw }) => raw.additionalProperties === false && !raw.title);
    expect(nameless.map(({ where }) => where)).toEqual([]);
  });

  it('refer only to what they define', () => {
    const lost = places.filter(({ schema, raw }) => typeof raw.$ref === 'string' && !find(schema, raw.$ref));
    expect(lost.map(({ where }) => where)).toEqual([]);
  });

  it('use only the names of things that shapes know', () => {
    const used = places.flatMap(({ raw }) =>
      ['x-names', 'x-key-names', 'x-defines'].flatMap(word =>
        typeof raw[word] === 'string' ? raw[word].split(' or ') : [],
      ),
    );
    expect([...new Set(used)].sort()).toEqual(nameKinds);
  });

  it('use only quantities that can be read, or say where the quantity comes from', () => {
    const used = places.flatMap(({ raw }) => (raw['x-value'] as { quantity: string } | undefined)?.quantity ?? []);
    const elsewhere = ['any', 'of the channel', 'of the condition', 'of the list', 'of the measure', 'of the part'];
    const unknown = [...new Set(used)].filter(quantity => !(quantity in dimensionFacts)).sort();
    expect(unknown).toEqual(elsewhere);
  });

  it('use only keywords of ours that the page for contributors explains', () => {
    const used = new Set(places.flatMap(({ raw }) => Object.keys(raw).filter(word => word.startsWith('x-'))));
    const rows = fs
      .readFileSync('DEVELOPERS.md', 'utf8')
      .split('\n')
      .filter(line => line.startsWith('| `x-'));
    const explained = rows.flatMap(row => [...row.split('|')[1]!.matchAll(/`(x-[a-z-]+)`/g)].map(found => found[1]!));
    expect([...used].sort()).toEqual(explained.sort());
  });

  it('never take another word for a key that is a key itself', () => {
    const taken = places.flatMap(({ where, raw }) => {
      const properties = (raw.properties ?? {}) as Record<string, Raw>;
      return Object.entries(properties).flatMap(([key, value]) =>
        ((value['x-also'] ?? []) as string[])
          .filter(word => word in properties)
          .map(word => `${where}/${key}: ${word}`),
      );
    });
    expect(taken).toEqual([]);
  });
});

const nameKinds = [
  ...[
    'answer',
    'button',
    'cavity',
    'condition',
    'connector',
    'ending',
    'failure',
    'fault',
    'ground',
    'load',
    'output',
    'owner',
    'part',
    'pin',
  ],
  ...[
    'point',
    'position',
    'procedure',
    'procedure file',
    'repairable',
    'row',
    'rule',
    'scan data',
    'specification',
    'splice',
  ],
  ...['start', 'state', 'step', 'system', 'system file', 'terminal', 'tool', 'variant', 'walk', 'wire'],
];

interface Place {
  readonly where: string;
  readonly raw: Raw;
  readonly schema: Raw;
}

/** Every place of a schema, from the outside in; examples are data and no places. */
function* placesIn(schema: Raw, where: string, node: unknown = schema): Generator<Place> {
  if (typeof node !== 'object' || node === null) return;
  if (!Array.isArray(node)) yield { where, raw: node as Raw, schema };
  for (const [key, value] of Object.entries(node)) {
    if (!['examples', 'x-also-values', 'enum'].includes(key)) yield* placesIn(schema, `${where}/${key}`, value);
  }
}

function keys(): Place[] {
  return places.filter(
    ({ where, raw }) => /\/(properties|patternProperties)\/[^/]+$/.test(where) && Object.keys(raw).length > 0,
  );
}

function target(schema: Raw, raw: Raw): Raw {
  const found = typeof raw.$ref === 'string' ? find(schema, raw.$ref) : undefined;
  return found ? { ...target(schema, found), ...found } : {};
}

function find(schema: Raw, ref: string): Raw | undefined {
  return (schema.$defs as Record<string, Raw>)[ref.replace('#/$defs/', '')];
}
