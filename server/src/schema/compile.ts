import type {
  ChosenBy,
  Denial,
  EntrySnippet,
  Key,
  ListShape,
  MapShape,
  NameKind,
  QuantityShape,
  Shape,
  TextShape,
} from './shape.ts';

/** The part of JSON Schema 2020-12 that our schemas use, with our own keywords. */
export interface RawSchema {
  readonly $ref?: string;
  readonly $defs?: Readonly<Record<string, RawSchema>>;
  readonly title?: string;
  readonly description?: string;
  readonly examples?: readonly unknown[];
  readonly type?: string | readonly string[];
  readonly enum?: readonly unknown[];
  readonly enumDescriptions?: readonly string[];
  readonly const?: unknown;
  readonly oneOf?: readonly RawSchema[];
  readonly allOf?: readonly RawSchema[];
  readonly properties?: Readonly<Record<string, RawSchema | false>>;
  readonly patternProperties?: Readonly<Record<string, RawSchema>>;
  readonly additionalProperties?: RawSchema | boolean;
  readonly required?: readonly string[];
  readonly minProperties?: number;
  readonly maxProperties?: number;
  readonly items?: RawSchema;
  readonly minItems?: number;
  readonly maxItems?: number;
  readonly 'x-snippet'?: string;
  readonly 'x-entry'?: string;
  readonly 'x-names'?: string;
  readonly 'x-key-names'?: string;
  readonly 'x-defines'?: NameKind;
  readonly 'x-also'?: readonly string[];
  readonly 'x-also-values'?: Readonly<Record<string, string>>;
  readonly 'x-value'?: QuantityShape;
  readonly 'x-words'?: readonly string[];
  readonly 'x-line'?: 'wire';
  readonly 'x-format'?: number;
  readonly 'x-chosen-by'?: ChosenBy;
  readonly 'x-denied'?: Denial;
}

/** Turns a schema into shapes. Places below are compiled when they are first asked for, since schemas refer to themselves. */
export function compile(root: RawSchema): Shape {
  return new Compiler(root.$defs ?? {}).shape(root);
}

class Compiler {
  private readonly known = new WeakMap<RawSchema, Shape>();
  private readonly defs: Readonly<Record<string, RawSchema>>;

  constructor(defs: Readonly<Record<string, RawSchema>>) {
    this.defs = defs;
  }

  shape(raw: RawSchema): Shape {
    const before = this.known.get(raw);
    if (before) return before;
    const whole = this.resolve(raw);
    const ways = (whole.oneOf ?? [whole]).map(way => this.resolve(way)).flatMap(way => way.oneOf ?? [way]);
    const resolved = ways.map(way => this.resolve(way));
    const maps = resolved.filter(way => takes(way, 'object'));
    const list = resolved.find(way => takes(way, 'array'));
    const text = resolved.find(isText);
    const shape: Shape = {
      title: whole.title ?? '',
      description: whole.description ?? '',
      examples: whole.examples ?? [],
      snippet: whole['x-snippet'],
      text: text && this.text(text, whole),
      list: list && this.list(list),
      maps: maps.map(map => this.map(map, maps.length > 1)),
      chosenBy: whole['x-chosen-by'] ?? 'key',
      entries: (whole.oneOf ? [whole, ...resolved] : [whole]).flatMap(way => entrySnippet(way)),
      mayBeEmpty: resolved.some(way => takes(way, 'null')),
    };
    this.known.set(raw, shape);
    return shape;
  }

  /** Follows `$ref`, whose neighbours go before what it refers to, and joins `allOf`. */
  private resolve(raw: RawSchema): RawSchema {
    if (raw.$ref !== undefined) {
      const { $ref, ...own } = raw;
      const target = this.defs[$ref.replace('#/$defs/', '')];
      return { ...(target ? this.resolve(target) : {}), ...own };
    }
    if (!raw.allOf) return raw;
    const { allOf, ...own } = raw;
    return allOf.map(part => this.resolve(part)).reduce((joined, part) => join(joined, part), own);
  }

  private text(raw: RawSchema, whole: RawSchema): TextShape {
    const values = raw.const !== undefined ? [raw.const] : raw.enum;
    const docs = values?.flatMap((value, i) =>
      // YAML readers of older versions turn `on` into a boolean; such doubles are of no use to people.
      typeof value === 'string' ? [{ value, description: raw.enumDescriptions?.[i] ?? '' }] : [],
    );
    return {
      values: docs,
      otherWords: new Map(Object.entries(raw['x-also-values'] ?? {})),
      names: split(raw['x-names']),
      quantity: raw['x-value'],
      words: raw['x-words'] ?? whole['x-words'] ?? [],
      line: raw['x-line'],
      defines: raw['x-defines'],
      format: raw['x-format'],
    };
  }

  private list(raw: RawSchema): ListShape {
    const items = raw.items ?? {};
    const shape = once(() => this.shape(items));
    return {
      get items() {
        return shape();
      },
      min: raw.minItems ?? 0,
      max: raw.maxItems ?? Number.POSITIVE_INFINITY,
      defines: raw['x-defines'],
    };
  }

  private map(raw: RawSchema, isOneOfSeveral: boolean): MapShape {
    const keys = new Map<string, Key>();
    const denied = new Map<string, Denial>();
    let selector = isOneOfSeveral ? raw.required?.[0] : undefined;
    for (const [key, value] of Object.entries(raw.properties ?? {})) {
      if (value === false) {
        if (raw['x-denied']) denied.set(key, raw['x-denied']);
        continue;
      }
      keys.set(key, this.key(key, value, raw.required?.includes(key) === true));
      if (isOneOfSeveral && key === 'kind' && typeof value.const === 'string') selector = value.const;
    }
    const beginnings = Object.entries(raw.patternProperties ?? {}).map(([pattern, value]) => {
      const beginning = pattern.replace('^', '');
      return [beginning, this.key(beginning, value, false)] as const;
    });
    const rest = raw.additionalProperties;
    const others = typeof rest === 'object' ? once(() => this.shape(rest)) : undefined;
    return {
      title: raw.title ?? '',
      description: raw.description ?? '',
      keys,
      required: [...keys.values()].filter(({ required }) => required),
      beginnings: new Map(beginnings),
      get others() {
        return others?.();
      },
      keyNames: split(raw['x-key-names']),
      defines: raw['x-defines'],
      denied,
      min: raw.minProperties ?? 0,
      max: raw.maxProperties ?? Number.POSITIVE_INFINITY,
      selector,
      otherWords: raw['x-also'] ?? [],
    };
  }

  private key(key: string, raw: RawSchema, required: boolean): Key {
    const shape = once(() => this.shape(raw));
    return {
      key,
      required,
      otherWords: raw['x-also'] ?? [],
      get shape() {
        return shape();
      },
    };
  }
}

/** Compiles a place when it is first asked for, and not again. */
function once(make: () => Shape): () => Shape {
  let made: Shape | undefined;
  return () => {
    made ??= make();
    return made;
  };
}

/** What is joined is only a part of an entry, so the snippet of the whole entry does not belong to it. */
function join(a: RawSchema, b: RawSchema): RawSchema {
  const properties = { ...a.properties, ...b.properties };
  return { ...a, ...b, description: a.description ?? b.description, properties, 'x-entry': undefined };
}

function takes(raw: RawSchema, type: string): boolean {
  return raw.type === type || (Array.isArray(raw.type) && raw.type.includes(type));
}

function isText(raw: RawSchema): boolean {
  return takes(raw, 'string') || raw.enum !== undefined || raw.const !== undefined;
}

function split(names: string | undefined): readonly NameKind[] {
  return (names?.split(' or ') ?? []) as NameKind[];
}

function entrySnippet(raw: RawSchema): EntrySnippet[] {
  const body = raw['x-entry'];
  return body === undefined ? [] : [{ label: raw.title ?? '', description: raw.description ?? '', body }];
}
