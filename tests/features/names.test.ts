import { describe, expect, it } from 'vitest';
import { definition } from '../../server/src/features/definition.ts';
import type { Location } from '../../server/src/features/project.ts';
import { highlights, references } from '../../server/src/features/references.ts';
import { prepareRename, rename } from '../../server/src/features/rename.ts';
import { cursorAt, lampScene, type Scene, scene, textAt, windows } from './support.ts';

/** `lamp.system.yaml:12 "A1"`: file, line from 1, and text. */
function shown({ workspace }: Scene, place: Location): string {
  const { tree } = workspace.view(place.uri)!;
  const line = tree.text.slice(0, place.start).split(/\r\n|\r|\n/).length;
  return `${place.uri.split('/').at(-1)!.split('.').slice(0, 2).join('.')}:${line} ${tree.text.slice(place.start, place.end)}`;
}

function defined(at: Scene): string[] {
  return definition(at.workspace, at.view, at.offset).map(place => shown(at, place));
}

function referred(at: Scene): string[] {
  return references(at.workspace, at.view, at.offset, true).map(place => shown(at, place));
}

describe('definition', () => {
  it.each([
    ['procedure', 'red: X1|/1 (back', 'lamp.system:30 X1'],
    ['procedure', 'red: X1/1| (back', 'lamp.system:30 1'],
    ['procedure', 'X1/1 (E1| side)', 'lamp.system:18 E1'],
    ['procedure', 'set: { ke|y: run', 'lamp.system:7 key'],
    ['procedure', 'key: r|un, S1', 'lamp.system:7 run'],
    ['procedure', 'S1: pre|ssed }', 'lamp.system:16 pressed'],
    ['procedure', 'relay|ed: { limits', 'lamp.system:5 relayed'],
    ['procedure', 'read: A1 la|mp', 'lamp.system:27 lamp'],
    ['procedure', 'expect: li|t', 'lamp.system:27 lit'],
    ['procedure', 'hose one cha|fed', 'lamp.system:28 chafed'],
    ['procedure', 'all sound: vol|ts', 'lamp-dark.procedure:18 volts'],
    ['procedure', 'confirm: lo|ok }', 'lamp-dark.procedure:12 look'],
    ['system', 'W2: F1.2 to S|P1', 'lamp.system:34 SP1'],
    ['system', 'beside W|4', 'lamp.system:39 W4'],
    ['system', 'only rela|yed', 'lamp.system:5 relayed'],
    ['samples', 'look: all so|und', 'lamp-dark.procedure:17 all sound'],
    ['samples', 'ends at: replace|-lamp', 'lamp-dark.procedure:47 replace-lamp'],
    ['samples', 'read-lamp: li|t', 'lamp.system:27 lit'],
    ['samples', 'starts from: L0|1', 'lamp-dark.procedure:8 L01'],
    ['procedure', 'lamp.sys|tem.yaml', 'lamp.system:1 '],
    ['samples', 'lamp-dark.proc|edure.yaml', 'lamp-dark.procedure:1 '],
    // A terminal that belongs to a kind of part leads to the part.
    ['system', 'W5: E1.2| to', 'lamp.system:18 E1'],
  ] as const)('%s, %s', (file, mark, expected) => {
    expect(defined(cursorAt(file, mark))).toEqual([expected]);
  });

  it('gives nothing in text that names nothing', () => {
    expect(defined(cursorAt('procedure', 'title: The la|mp'))).toEqual([]);
  });
});

describe('references', () => {
  it('finds a part in wires, leads, endings and behind a side', () => {
    expect(referred(cursorAt('system', 'E|1: { kind'))).toEqual([
      'lamp.system:18 E1',
      'lamp.system:39 E1',
      'lamp.system:40 E1',
      'lamp-dark.procedure:36 E1',
      'lamp-dark.procedure:37 E1',
      'lamp-dark.procedure:47 E1',
    ]);
  });

  it('finds a step in branches, entries, confirmations and samples', () => {
    expect(referred(cursorAt('procedure', '  read-|lamp:\n')).sort()).toEqual(
      [
        'lamp-dark.procedure:40 read-lamp',
        'lamp-dark.procedure:8 read-lamp',
        'lamp-dark.procedure:27 read-lamp',
        'lamp-dark.samples:12 read-lamp',
      ].sort(),
    );
  });

  it('keeps states of one name apart', () => {
    const files = {
      'a.system.yaml':
        'conditions:\n  key: [o$0ff, on]\n  fan: [off, on]\nparts:\n  S1: { kind: switch, closed: { fan: off, key: off } }\n',
    };
    expect(referred(scene(files)).map(place => place.split(' ')[0])).toEqual(['a.system:2', 'a.system:5']);
  });

  it('finds a condition in what a battery, a motor and a sensor do', () => {
    const files = {
      'a.system.yaml': `format: 1
conditions: { k$0ey: [off, run] }
parts:
  G1: { kind: battery, cells: 6, cranking when: { key: off }, charging when: { key: run } }
  M1: { kind: motor, resistance: 1 Ω, stalled when: { key: run } }
  B1: { kind: hall sensor, on when: { key: run } }
`,
    };
    const lines = [2, 4, 4, 5, 6].map(line => `a.system:${line} key`);
    expect(referred(scene(files))).toEqual(lines);
  });

  it('marks them within the file, with line breaks of Windows', () => {
    const at = lampScene(files => {
      for (const name of Object.keys(files)) files[name] = windows(files[name]);
      files['lamp.system.yaml'] = files['lamp.system.yaml'].replace(' S1: {', ' S$01: {');
    });
    const found = highlights(at.view, at.offset);
    expect(found.map(place => textAt(at.view, place))).toEqual(found.map(() => 'S1'));
    expect(found.map(place => place.declares)).toEqual([true, false, false, false, false]);
  });
});

describe('rename', () => {
  function renamed(at: Scene, to: string): Record<string, string> {
    const { value = [], refused } = rename(at.workspace, at.view, at.offset, to);
    expect(refused).toBeUndefined();
    const texts: Record<string, string> = {};
    for (const edit of [...value].sort((a, b) => b.start - a.start)) {
      const before = texts[edit.uri] ?? at.workspace.view(edit.uri)!.tree.text;
      texts[edit.uri] = before.slice(0, edit.start) + edit.text + before.slice(edit.end);
    }
    return Object.fromEntries(Object.entries(texts).map(([uri, text]) => [uri.split('/').at(-1)!, text]));
  }

  it('changes a connector in every file and nothing else', () => {
    const after = renamed(cursorAt('procedure', 'disconnect: [X|1]'), 'X44');
    const { workspace } = lampScene();
    for (const [name, text] of Object.entries(after))
      expect(text.replaceAll('X44', 'X1')).toBe(workspace.view(`file:///project/${name}`)!.tree.text);
    expect(after['lamp.system.yaml']).toContain('through X44/2,');
    expect(after['lamp.system.yaml']).toContain('red: X44/1 (back-probe)');
    expect(after['lamp-dark.procedure.yaml']).toContain('red: X44/1 (E1 side)');
    expect(after['lamp-dark.procedure.yaml']).not.toContain('X1');
  });

  it('changes an answer where a sample gives it', () => {
    const after = renamed(cursorAt('procedure', 'all so|und: volts'), 'nothing seen');
    expect(after['lamp-dark.samples.yaml']).toContain('look: nothing seen,');
    expect(after['lamp-dark.procedure.yaml']).toContain('nothing seen: volts');
  });

  it('keeps quotes, and changes a name of one word into several', () => {
    const at = scene({
      'a.system.yaml':
        'parts:\n  "pümp": { kind: motor }\nwires:\n  - W1: pümp.1 to GND-1\ngrounds:\n  GND-1: here\nallow:\n  x: { in: [\'pü$0mp\'], because: y }\n',
    });
    expect(renamed(at, 'lift pump')['a.system.yaml']).toBe(
      'parts:\n  "lift pump": { kind: motor }\nwires:\n  - W1: lift pump.1 to GND-1\ngrounds:\n  GND-1: here\nallow:\n  x: { in: [\'lift pump\'], because: y }\n',
    );
  });

  it('changes a name in both systems of a procedure', () => {
    const system = 'parts:\n  E1: { kind: lamp }\n';
    const at = scene({
      'a.system.yaml': system,
      'b.system.yaml': system,
      'p.procedure.yaml':
        'applies to: { a.system.yaml: all, b.system.yaml: all }\nendings:\n  e: { replace: [E$01] }\n',
    });
    expect(Object.keys(renamed(at, 'E9')).sort()).toEqual(['a.system.yaml', 'b.system.yaml', 'p.procedure.yaml']);
  });

  it.each([
    ['E1', 'F1', 'There is already a part `F1`'],
    ['E1', ' E2', 'A name has no blanks at its ends'],
    ['E1', '', 'A name needs at least one character'],
    ['E1', 'E: 2', 'A name holds no `:`'],
    ['E1', 'E, 2', 'A name holds no `,`'],
    ['E1', '-E', 'A name does not begin with `-`'],
    ['E1', 'lamp to the left', 'A name in a wire does not hold the word `to`'],
  ])('refuses to call %s %j', (name, to, why) => {
    const at = cursorAt('system', `${name}|: { kind`);
    expect(rename(at.workspace, at.view, at.offset, to)).toEqual({ refused: why });
  });

  it('says why a name cannot be changed', () => {
    const terminal = cursorAt('system', 'W5: E1.2| to');
    expect(prepareRename(terminal.workspace, terminal.view, terminal.offset).refused).toBe(
      '`2` belongs to the kind of `E1` and keeps its name',
    );
    const nothing = cursorAt('procedure', 'title: The la|mp');
    expect(prepareRename(nothing.workspace, nothing.view, nothing.offset).refused).toBe(
      'There is no name here that could be changed',
    );
    const variant = cursorAt('system', '  plai|n: Without');
    expect(rename(variant.workspace, variant.view, variant.offset, 'all').refused).toBe(
      'The word `all` stands for every variant',
    );
  });
});
