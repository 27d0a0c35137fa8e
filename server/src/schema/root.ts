import procedure from '../../../schemas/procedure.schema.json' with { type: 'json' };
import samples from '../../../schemas/samples.schema.json' with { type: 'json' };
import system from '../../../schemas/system.schema.json' with { type: 'json' };
import { compile, type RawSchema } from './compile.ts';
import type { Shape } from './shape.ts';

export type FileKind = 'system' | 'procedure' | 'samples';

/** What a file is, by the ending of its name; nothing for files that are not ours. */
export function fileKindOf(uri: string): FileKind | undefined {
  return /\.(system|procedure|samples)\.ya?ml$/i.exec(uri)?.[1]?.toLowerCase() as FileKind | undefined;
}

/** The shape of a whole file. */
export function rootShape(kind: FileKind): Shape {
  const before = roots.get(kind);
  if (before) return before;
  const shape = compile(schemas[kind]);
  roots.set(kind, shape);
  return shape;
}

const roots = new Map<FileKind, Shape>();

const schemas: Record<FileKind, RawSchema> = {
  system: system as unknown as RawSchema,
  procedure: procedure as unknown as RawSchema,
  samples: samples as unknown as RawSchema,
};
