import { alarm, type Breakage, bilge, type Edit, loader, loaderDropsOut, loaderNeverStarts, pump } from '../edit.ts';

/** Files and names. What nothing uses is only told where procedures use the system. */
export const names: readonly Breakage[] = [
  {
    rule: 'missing-file',
    file: alarm,
    what: 'there is no `blige.system.yaml`',
    edits: [['  bilge.system.yaml: all', '  blige.system.yaml: all']],
  },
  {
    rule: 'outside-workspace',
    file: alarm,
    what: 'an address instead of a file',
    edits: [['  bilge.system.yaml: all', '  "https://example.org/bilge.system.yaml": all']],
  },
  {
    rule: 'cyclic-include',
    file: bilge,
    what: 'the file includes itself',
    edits: [['temperature: 25 °C', 'temperature: 25 °C\nincludes: [bilge.system.yaml]']],
  },
  {
    rule: 'unknown-name',
    file: alarm,
    what: 'there is no bus bar `BN3`',
    edits: [['red: A2.6 (harness side)\n    black: BN2', 'red: A2.6 (harness side)\n    black: BN3']],
  },
  {
    rule: 'duplicate-name',
    file: bilge,
    what: 'two wires are called `W41`',
    edits: [['- W42: S5.2', '- W41: S5.2']],
  },
  unused('part', 'nothing names the old bell', [
    '  # Not electrical\n',
    '  # Not electrical\n  bell-H1: { kind: item, title: Old bell }\n',
  ]),
  unused('connector', 'no wire goes through `X9`', [
    'connectors:\n',
    'connectors:\n  X9: { title: Spare plug, cavities: [1] }\n',
  ]),
  unused('cavity', 'no wire goes through `X6/3`', [
    'High-water float plug, cavities: [1, 2]',
    'High-water float plug, cavities: [1, 2, 3]',
  ]),
  unused('point', 'no wire ends at `SP9`', ['splices:\n', 'splices:\n  SP9: Spare end, behind the panel\n']),
  unused('pin', 'no wire ends at `A2.9`', [
    '      5: { name: buzzer,',
    '      9: { name: spare input, pull-down: { through: 10 kΩ ± 5 % } }\n      5: { name: buzzer,',
  ]),
  unused('scan-datum', 'no step reads the supply of the alarm', [
    '    scan data:\n',
    '    scan data:\n      supply: { from: 1, shows: voltage }\n',
  ]),
  {
    rule: 'unused-variant',
    file: loader,
    what: 'no procedure applies to `open-cab`',
    edits: [
      [
        '  relay-fed: Valve feed through a supply relay\n',
        '  relay-fed: Valve feed through a supply relay\n  open-cab: Valve feed beside the seat\n',
      ],
    ],
    beside: [loaderNeverStarts, loaderDropsOut],
  },
  unused('condition', 'nothing depends on the weather', ['conditions:\n', 'conditions:\n  weather: [calm, rough]\n']),
  unused('specification', 'no step measures the pump', [
    'specifications:\n',
    [
      'specifications:',
      '  pump-ohms:',
      '    measure: resistance',
      '    red: M1.1 (part side)',
      '    black: M1.2 (part side)',
      '    disconnect: [M1]',
      '    rows: { cold: { limits: 1.9 Ω .. 3.3 Ω } }',
      '',
    ].join('\n'),
  ]),
  {
    rule: 'unused-allowance',
    file: alarm,
    what: '`bilge` has two answers, so there is nothing to allow',
    edits: [['\nallow:\n', '\nallow:\n  single-answer: { in: [bilge], because: Nothing else can be seen there }\n']],
  },
];

function unused(what: string, sentence: string, edit: Edit): Breakage {
  return { rule: `unused-${what}`, file: bilge, what: sentence, edits: [edit], beside: [alarm, pump] };
}
