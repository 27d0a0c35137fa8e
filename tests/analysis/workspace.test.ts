import { describe, expect, it } from 'vitest';
import type { ProcedureView, SystemView } from '../../server/src/analysis/view.ts';
import { Workspace } from '../../server/src/analysis/workspace.ts';

const folder = 'file:///project/';
const system = `
format: 1
system: lamp
title: Lamp
parts:
  G1: { kind: battery, voltage: 12 V, internal resistance: 10 mΩ }
  E1: { kind: resistor, resistance: 10 Ω }
grounds: { GND-1: { title: Frame } }
wires:
  - W1: G1.+ to E1.1
  - W2: E1.2 to GND-1
  - W3: G1.- to GND-1
`;
const procedure = `
format: 1
procedure: p
applies to: { lamp.system.yaml: all }
start: a
steps:
  a: { do: Look, then: b }
  b: { do: Look again, then: end }
endings:
  end: { no fault: x }
`;

function project(files: Record<string, string>): Workspace {
  const workspace = new Workspace();
  for (const [name, text] of Object.entries(files)) workspace.set(folder + name, text);
  return workspace;
}

const both = () => project({ 'lamp.system.yaml': system, 'p.procedure.yaml': procedure });
const systemView = (w: Workspace) => w.view(`${folder}lamp.system.yaml`) as SystemView;
const procedureView = (w: Workspace) => w.view(`${folder}p.procedure.yaml`) as ProcedureView;

describe('views', () => {
  it('are kept while nothing behind them changes', () => {
    const workspace = both();
    const before = procedureView(workspace);
    workspace.set(`${folder}other.procedure.yaml`, procedure);
    expect(procedureView(workspace)).toBe(before);
  });

  it('are made anew when a system behind them changes', () => {
    const workspace = both();
    const before = procedureView(workspace);
    workspace.set(`${folder}lamp.system.yaml`, system.replace('10 Ω', '12 Ω'));
    expect(procedureView(workspace)).not.toBe(before);
  });

  it('keep the steps that an edit does not touch', () => {
    const workspace = both();
    const before = procedureView(workspace).procedure.steps;
    workspace.set(`${folder}p.procedure.yaml`, procedure.replace('Look again', 'Look twice'));
    const after = procedureView(workspace).procedure.steps;
    expect(after.get('a')).toBe(before.get('a'));
    expect(after.get('b')).not.toBe(before.get('b'));
  });
});

describe('circuits', () => {
  it('are kept by an edit that leaves them equal', () => {
    const workspace = both();
    const before = systemView(workspace).circuit('standard');
    workspace.set(`${folder}lamp.system.yaml`, system.replace('title: Lamp', 'title: Work lamp'));
    expect(systemView(workspace).circuit('standard')).toBe(before);
  });

  it('are solved anew after another value', () => {
    const workspace = both();
    const before = systemView(workspace).circuit('standard');
    workspace.set(`${folder}lamp.system.yaml`, system.replace('10 Ω', '12 Ω'));
    expect(systemView(workspace).circuit('standard')).not.toBe(before);
  });
});

describe('files that name each other', () => {
  it('asks for those that are missing, once', () => {
    const workspace = project({ 'p.procedure.yaml': procedure });
    expect(workspace.missing()).toEqual([`${folder}lamp.system.yaml`]);
    workspace.absent(`${folder}lamp.system.yaml`);
    expect(workspace.missing()).toEqual([]);
  });

  it('reads included parts as if they stood there', () => {
    const workspace = project({
      'power.system.yaml': 'format: 1\nsystem: power\nparts:\n  G9: { kind: battery, voltage: 24 V }\n',
      'lamp.system.yaml': system.replace('parts:', 'includes: [power.system.yaml]\nparts:'),
    });
    expect([...systemView(workspace).system.parts.keys()].sort()).toEqual(['E1', 'G1', 'G9']);
  });

  it('comes to an end where they include each other', () => {
    const including = (name: string, other: string, part: string) =>
      `format: 1\nsystem: ${name}\nincludes: [${other}.system.yaml]\nparts:\n  ${part}: { kind: fuse, rating: 10 A }\n`;
    const workspace = project({
      'a.system.yaml': including('a', 'b', 'F1'),
      'b.system.yaml': including('b', 'a', 'F2'),
    });
    const view = workspace.view(`${folder}a.system.yaml`) as SystemView;
    expect([...view.system.parts.keys()].sort()).toEqual(['F1', 'F2']);
    expect((workspace.view(`${folder}b.system.yaml`) as SystemView).system.parts.has('F1')).toBe(true);
  });

  it('lets go of a deleted file', () => {
    const workspace = both();
    workspace.delete(`${folder}lamp.system.yaml`);
    expect(procedureView(workspace).cases).toEqual([]);
    expect(workspace.missing()).toEqual([`${folder}lamp.system.yaml`]);
  });
});
