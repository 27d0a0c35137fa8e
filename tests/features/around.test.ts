import { describe, expect, it } from 'vitest';
import type { ProcedureView } from '../../server/src/analysis/view.ts';
import { codeActions, fixAll } from '../../server/src/features/code-actions.ts';
import { codeLenses } from '../../server/src/features/code-lens.ts';
import { diagnostics } from '../../server/src/features/diagnostics.ts';
import { foldingRanges } from '../../server/src/features/folding.ts';
import { hover } from '../../server/src/features/hover/hover.ts';
import { inlayHints } from '../../server/src/features/inlay-hints.ts';
import { documentLinks } from '../../server/src/features/links.ts';
import { type OutlineItem, outline } from '../../server/src/features/outline.ts';
import { selectionRanges } from '../../server/src/features/selection.ts';
import { semanticTokens } from '../../server/src/features/semantic-tokens.ts';
import { workspaceSymbols } from '../../server/src/features/workspace-symbols.ts';
import { parse } from '../../server/src/syntax/parse.ts';
import { cursorAt, lampScene, scene, textAt, uriOf, windows } from './support.ts';

function procedure(change?: Parameters<typeof lampScene>[0]): ProcedureView {
  return lampScene(change).workspace.view(uriOf('lamp-dark.procedure.yaml')) as ProcedureView;
}

describe('hover', () => {
  function shown(file: 'system' | 'procedure' | 'samples', mark: string): string {
    const at = cursorAt(file, mark);
    return hover(at.workspace, at.view, at.offset)?.markdown ?? '';
  }

  it('gives the range of the circuit at a measuring step, with the combination behind each end', () => {
    const text = shown('procedure', 'limi|ts: 11.5 V');
    expect(text).toContain('On a machine without a fault the circuit gives');
    expect(text).toMatch(/nominal 12\.\d+ V/);
    // By hand: lit, the lamp takes 1.75 A · (V / 12 V)^0.55 ("Lamp rerating"), 1.75 A at the lowest and 1.82 A at the highest voltage.
    // Up to X1/1 and back from the frame there are at most 86 mΩ and at least 78 mΩ (IEC 60228; 1/58 Ω·mm²/m of copper):
    // 12.2 V - 1.75 A · 86 mΩ = 12.05 V, and 13 V - 1.82 A · 78 mΩ = 12.86 V; the module adds 30 mA.
    expect(text).toContain('**12.04 V .. 12.86 V**');
    expect(text).toMatch(/lowest with .*`G1` at 12\.2 V[\s\S]*highest with .*`G1` at 13 V/);
    expect(text).toContain('computed with `key` at run, `S1` at pressed');
    expect(text).toContain('**limits**');
  });

  it('gives the range at the name of a step, and its text only where it is not at hand', () => {
    const declared = shown('procedure', '  vo|lts:');
    expect(declared).toMatch(/^\*\*volts\*\* · step\n\nOn a machine without a fault/);
    expect(declared).not.toContain('measure:');
    expect(shown('procedure', 'all sound: vo|lts')).toMatch(/lowest with[\s\S]*```yaml\nvolts:\n {2}title: Voltage/);
  });

  it('shows a part as it is declared', () => {
    expect(shown('procedure', 'replace: [E|1]')).toBe(
      '**E1** · part\n\n```yaml\nE1: { kind: lamp, title: Lämpchen, power: 21 W, voltage: 12 V }\n```',
    );
  });

  it('computes the resistance of a wire, and says which wires meet at a point', () => {
    // 1.5 mm² of annealed copper at 20 °C: 1/58 Ω·mm²/m (IEC 60028) times 0.5 m, at most 13.3 Ω/km (IEC 60228, class 5).
    expect(shown('system', 'W|1: G1')).toContain('5.74 mΩ .. 6.65 mΩ from size and length at 20 °C');
    expect(shown('procedure', 'red: X1/1| (back')).toContain('wires: `W4`');
  });

  it('says which readings take a branch', () => {
    expect(shown('procedure', '      with|in: ohms')).toContain('Taken by 11.5 V .. 13 V, and leads to `ohms`.');
    expect(shown('procedure', '      belo|w 1 V:')).toContain(
      'Taken by a reading below 1 V, and leads to `read-lamp`.',
    );
    expect(shown('procedure', '      other|wise: mend-plug\n    by')).toContain('`OL` included');
  });

  it('documents keys and the words that can stand behind them', () => {
    expect(shown('procedure', 'discon|nect: [X1]')).toContain('They stay apart until a `connect`.');
    expect(shown('system', 'kind: bat|tery')).toContain('**battery**');
  });

  it('explains a rule where it is silenced', () => {
    const at = scene({ 'a.procedure.yaml': 'allow:\n  unreachable-s$0tep: { because: x }\n' });
    expect(hover(at.workspace, at.view, at.offset)?.markdown).toMatch(/^\*\*unreachable-step\*\*: /);
  });

  it('says nothing where there is nothing to say', () => {
    expect(shown('procedure', 'title: The la|mp')).toBe('');
  });
});

describe('inlay hints', () => {
  it('put the range of the circuit behind each limit, and behind that of a variant', () => {
    const view = procedure();
    const hints = inlayHints(view, { start: 0, end: view.tree.text.length });
    const behind = hints.map(hint => view.tree.text.slice(0, hint.offset).split('\n').at(-1));
    expect(behind).toEqual([
      '    limits: 11.5 V .. 13 V',
      '      relayed: { limits: 11.4 V .. 13 V',
      '    limits: below 10 Ω',
    ]);
    for (const hint of hints) expect(hint.text).toMatch(/^circuit: .*\d .*\.\. .*\d/);
  });

  it('name the variants where they differ by more than a wire', () => {
    const view = procedure(files => {
      files['lamp.system.yaml'] = files['lamp.system.yaml'].replace(
        '  E1: { kind: lamp, title: Lämpchen, power: 21 W, voltage: 12 V }',
        '  E1: { kind: resistor, resistance: 5 Ω, by variant: { relayed: { resistance: 9 Ω } } }',
      );
    });
    const hints = inlayHints(view, { start: 0, end: view.tree.text.length });
    expect(hints.at(-1)?.text).toMatch(/^circuit: plain 5\.\d+ Ω \.\. 5\.\d+ Ω · relayed 9\.\d+ Ω \.\. 9\.\d+ Ω$/);
  });

  it('stand behind the limits of a voltage that a module shows', () => {
    const view = procedure(files => {
      files['lamp.system.yaml'] = files['lamp.system.yaml'].replace(
        'scan data:',
        'scan data:\n      supply: { from: 1, shows: voltage }',
      );
      files['lamp-dark.procedure.yaml'] = files['lamp-dark.procedure.yaml'].replace(
        'read: A1 lamp\n    expect: lit',
        'read: A1 supply\n    limits: 11 V .. 13 V',
      );
    });
    const hints = inlayHints(view, { start: view.tree.text.indexOf('read: A1'), end: view.tree.text.length });
    // By hand: up to SP1 and back from the frame there are at most 47 mΩ, so 12.2 V - 1.75 A · 47 mΩ = 12.12 V while the lamp is lit,
    // 1 mV less by what the module draws; nothing else flows while it is dark.
    expect(hints.map(({ text }) => text)).toEqual(['circuit: 12.11 V .. 13 V']);
  });

  it('are computed for the lines asked for only', () => {
    const view = procedure();
    const start = view.tree.text.indexOf('  ohms:\n    title');
    expect(inlayHints(view, { start, end: view.tree.text.length })).toHaveLength(1);
  });
});

describe('code lenses', () => {
  it('count what leads to each step and ending', () => {
    const view = procedure();
    const titles = codeLenses(view).map(lens => `${textAt(view, lens)}: ${lens.title}`);
    expect(titles).toContain('volts: 1 place leads here');
    expect(titles).toContain('mend-plug: 3 places lead here');
    expect(titles).toContain('ohms: Preview from here');
    expect(titles).not.toContain('ok: Preview from here');
  });
});

describe('semantic tokens', () => {
  it('tell names by what they stand for, in order and without overlaps', () => {
    const view = procedure(files => {
      files['lamp-dark.procedure.yaml'] = windows(files['lamp-dark.procedure.yaml']);
    });
    const tokens = semanticTokens(view);
    const named = tokens.map(token => `${textAt(view, token)} ${token.type}`);
    expect(named).toEqual(
      expect.arrayContaining(['X1 namespace', '1 property', 'E1 class', 'run enumMember', 'look function', 'ok event']),
    );
    for (const [i, token] of tokens.entries()) expect(token.start).toBeGreaterThanOrEqual(tokens[i - 1]?.end ?? 0);
  });
});

describe('outline', () => {
  const flat = (items: readonly OutlineItem[]): string[] =>
    items.flatMap(item => [`${item.name}${item.detail && ` (${item.detail})`}`, ...flat(item.children)]);

  it('shows steps with verb and title, endings, parts with their pins', () => {
    const found = flat(outline(procedure()));
    expect(found).toEqual(
      expect.arrayContaining(['steps', 'volts (measure · Voltage at the lamp plug)', 'replace-lamp (replace · E1)']),
    );
    const system = lampScene().view;
    expect(flat(outline(system))).toEqual(
      expect.arrayContaining([
        'E1 (lamp · Lämpchen)',
        '3 (lamp sense)',
        'lamp',
        'W9 (S1.2 to A1.3, 0.75 mm², 1 m, blue, only relayed)',
      ]),
    );
  });

  it('lists everything in all files by the letters typed', () => {
    const names = workspaceSymbols(lampScene().workspace, 'rl').map(place => place.name);
    expect(names).toEqual(expect.arrayContaining(['relayed', 'replace-lamp', 'read-lamp']));
    expect(names).not.toContain('look');
  });
});

describe('folding and selection', () => {
  it('folds entries and runs of comments', () => {
    const text = '# a\n# b\nsteps:\n  é:\n    do: x\n  b: { do: y }\nwires:\n  - A: b\n';
    for (const variant of [text, windows(text)]) {
      const folds = foldingRanges(parse(variant)).map(fold => variant.slice(fold.start, fold.end).split(/\r?\n/));
      expect(folds.map(lines => `${lines[0].trim()}+${lines.length - 1}`)).toEqual([
        'steps:+3',
        'é:+1',
        'wires:+1',
        '# a+1',
      ]);
    }
  });

  it('selects the value, then its entry, then the map around', () => {
    const text = 'a:\n  b: { c: d }\n';
    const found = selectionRanges(parse(text), text.indexOf('d')).map(({ start, end }) => text.slice(start, end));
    expect(found).toEqual(['d', 'c: d', '{ c: d }', 'b: { c: d }', 'a:\n  b: { c: d }']);
  });
});

describe('links', () => {
  it('lead to the files that are named', () => {
    const view = procedure();
    expect(documentLinks(view).map(link => [textAt(view, link), link.target])).toEqual([
      ['lamp.system.yaml', 'file:///project/lamp.system.yaml'],
    ]);
    const nested = scene({ 'a.system.yaml': 'includes: ["../my power.system.yaml"]\n' });
    expect(documentLinks(nested.view).map(link => link.target)).toEqual(['file:///my%20power.system.yaml']);
  });
});

describe('findings', () => {
  const view = procedure();
  const { workspace } = lampScene();
  const place = (text: string) => {
    const { unit, base } = view.tree.unitAt(view.tree.text.indexOf(text))!;
    const start = view.tree.text.indexOf(text) - base;
    return { uri: view.uri, span: { unit, start, end: start + text.length } };
  };
  const finding = {
    rule: 'unused-step',
    severity: 'warning' as const,
    place: place('ohms:'),
    message: 'What is wrong',
    detail: 'Why.',
    help: 'do this',
    related: [{ place: place('replace-lamp:'), message: 'there' }],
    fixes: [
      { title: 'Maybe', edits: [{ place: place('ohms:'), text: 'x:' }] },
      { title: 'Surely', preferred: true, edits: [{ place: place('ohms:'), text: 'y:' }] },
    ],
  };

  it('carry what is wrong, why and what to do, and the other places', () => {
    const [shown] = diagnostics({ ...workspace, view: () => view } as never, view.uri, [finding]);
    expect(textAt(view, shown)).toBe('ohms:');
    expect(shown.message).toBe('What is wrong\nWhy.\nhelp: do this');
    expect(shown.related.map(one => [textAt(view, one), one.message])).toEqual([['replace-lamp:', 'there']]);
    expect(shown.isUnnecessary).toBe(true);
  });

  it('offer their fixes where they stand, the certain one first, and all certain ones at once', () => {
    const project = { view: () => view, uris: () => [view.uri], dependents: () => [] };
    const at = view.tree.absolute(finding.place.span).start;
    expect(codeActions(project, view.uri, [finding], { start: at, end: at }).map(one => one.title)).toEqual([
      'Surely',
      'Maybe',
    ]);
    expect(codeActions(project, view.uri, [finding], { start: 0, end: 1 })).toEqual([]);
    expect(fixAll(project, view.uri, [finding, finding]).map(edit => edit.text)).toEqual(['y:']);
  });
});
