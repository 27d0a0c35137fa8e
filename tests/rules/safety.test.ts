import { describe, expect, it } from 'vitest';
import { ruleById } from '../../server/src/rules/index.ts';
import { checkFile } from '../../server/src/rules/run.ts';
import { fix, viewOf } from '../support/check.ts';
import { safety, voltages } from './fixtures/safety.ts';

/** Source: ISO 6469-3 (from memory): voltage class B begins above 60 V of direct voltage. */
describe('a supply above 60 V', () => {
  const { good } = ruleById.get('unmarked-high-voltage')!;
  const found = (volts: string, hazard: string) =>
    checkFile(viewOf(good.replace('voltage: 384 V ± 20 V, hazard: high voltage', `voltage: ${volts}${hazard}`))).map(
      f => f.rule,
    );

  it('is to be marked, one of 60 V is not', () => {
    const loud = voltages.filter(volts => found(volts, '').length > 0);
    expect(loud).toEqual(['60 V ± 1 %', '400 V']);
  });

  it('is not enough marked as hot', () => {
    expect(found('400 V', ', hazard: hot')).toEqual(['unmarked-high-voltage']);
    expect(found('400 V', ', hazard: [hot, high voltage]')).toEqual([]);
  });
});

/** Source: ANSI Z535.4-2007, 4.14: danger, warning and caution tell of injury, notice of practices not related to it. */
describe('signal words', () => {
  const said = safety['a caution of the step itself']!;
  const rules = (text: string) => checkFile(viewOf(text)).map(f => f.rule);

  it.each(['danger', 'warning', 'caution'])('%s tells of a hazard to a person', word => {
    expect(rules(said.replace('caution: Nothing', `${word}: Nothing`))).toEqual([]);
  });

  it('notice does not', () => {
    expect(rules(said.replace('caution: Nothing', 'notice: Nothing'))).toEqual(['hazard-without-caution']);
  });
});

describe('quick fixes', () => {
  it('begin a caution for the hazard', () => {
    const text = safety['a caution of the procedure about something else']!;
    const plain = text.replace(/^#(?!-).*\n/gm, '').split('#- ')[0]!;
    fix(
      text,
      'Add `cautions: [{ warning: Release the pressure before working at Y1 }]`',
      plain
        .replace(
          'all sound: not-found }\n',
          'all sound: not-found }\n    cautions: [{ warning: Release the pressure before working at Y1 }]\n',
        )
        .trimEnd(),
    );
  });
});

it('names one thing that takes the power away', () => {
  const view = viewOf(safety['a module is unplugged with its supply on, though it draws little']!);
  expect(checkFile(view).map(f => f.help)).toEqual(['Switch off in this step first, for example `set: { key: off }`.']);
});
