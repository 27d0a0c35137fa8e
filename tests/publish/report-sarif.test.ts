import { Ajv } from 'ajv';
import { describe, expect, it } from 'vitest';
import { reportAsSarif } from '../../server/src/publish/report-sarif.ts';
import { rules } from '../../server/src/rules/index.ts';
import schema from '../reference/sarif-schema-2.1.0.json' with { type: 'json' };
import { reportOn } from './support.ts';

/**
 * Source: JSON schema of SARIF 2.1.0 (OASIS Static Analysis Results Interchange Format TC), revision 2.1.0-rtm.5, as the package
 * @microsoft/jest-sarif 1.0.0-beta.0 carries it (MIT licence). It is written for draft 4 of JSON Schema, in which `id` stands for
 * `$id`. The final text (errata 01) is in no package that could be had. Read beside this one, from `fix` to `toolComponent`, it asks
 * the same but for three things: it names the type beside an `enum`, `runs` may be null, and the pattern of a language, which has an
 * unbalanced bracket here, is mended. That pattern is taken over.
 */
const { $schema: _draft, id: _id, ...rest } = schema;
for (const { properties } of [rest.definitions.run, rest.definitions.toolComponent]) {
  properties.language.pattern = '^[a-zA-Z]{2}(-[a-zA-Z]{2})?$';
}
const validate = new Ajv({
  strict: false,
  allErrors: true,
  formats: {
    uri: text => URL.canParse(text),
    'uri-reference': text => /^[\w\-.~:/?#[\]@!$&'()*+,;=%]*$/.test(text) && URL.canParse(text, 'file:///x/'),
    'date-time': text => !Number.isNaN(Date.parse(text)),
  },
}).compile(rest);

interface Result {
  ruleId: string;
  ruleIndex: number;
  message: { text: string };
  locations: { physicalLocation: { artifactLocation: { uri: string } } }[];
  partialFingerprints: object;
}

const settings = { version: '1.2.3', folder: 'file:///' };
const sarif = (source: string) => JSON.parse(reportAsSarif(reportOn(source), settings));

describe('a report in SARIF', () => {
  it('is checked by a schema that finds mistakes', () => {
    const log = sarif(rules.find(rule => rule.id === 'unreachable-step')!.bad);
    expect(validate(log), JSON.stringify(validate.errors)).toBe(true);
    log.runs[0].results[0].level = 'fatal';
    expect(validate(log)).toBe(false);
    log.runs[0].results[0].level = 'error';
    log.runs[0].results[0].locations[0].physicalLocation.region.startLine = 0;
    expect(validate(log)).toBe(false);
  });

  for (const rule of rules.filter(one => one.bad !== '')) {
    it(`is valid for what ${rule.id} finds`, () => {
      const log = sarif(rule.bad);
      expect(validate(log), JSON.stringify(validate.errors)).toBe(true);
      const [run] = log.runs;
      const results: Result[] = run.results;
      expect(results.map(result => result.ruleId)).toContain(rule.id);
      for (const { ruleId, ruleIndex, message } of results) {
        expect(run.tool.driver.rules[ruleIndex].id).toBe(ruleId);
        // Section 3.11.5: a brace that does not stand for an argument is doubled.
        expect(message.text.replaceAll('{{', '').replaceAll('}}', '')).not.toMatch(/[{}]/);
      }
      const prints = results.map(({ locations: [place], partialFingerprints: print }) =>
        JSON.stringify([place!.physicalLocation.artifactLocation.uri, print]),
      );
      expect(new Set(prints).size).toBe(prints.length);
    });
  }

  it('says what the reader needs to find, know and mend a finding', () => {
    const source = `format: 1
# 🔧
procedure: lamp-dark
applies to: { lamp.system.yaml: all }
starts from: [{ symptom: lamp stays dark }]
start: look
steps:
  look: { set: { key: run }, inspect: [E1], then: { damage found: Not_Found, all sound: not-found } }
endings:
  not-found: { no fault: The lamp is bright }
`;
    const report = reportOn(source, () => 'sub folder/lämp.procedure.yaml');
    const log = JSON.parse(reportAsSarif(report, settings));
    expect(validate(log), JSON.stringify(validate.errors)).toBe(true);
    const [run] = log.runs;
    expect(run.columnKind).toBe('utf16CodeUnits');
    expect(run.originalUriBaseIds).toEqual({ CHECKED: { uri: 'file:///' } });
    expect(run.tool.driver).toMatchObject({ name: 'Faultwalk', semanticVersion: '1.2.3' });
    const result = run.results.find((one: { ruleId: string }) => one.ruleId === 'unknown-name');
    const artifactLocation = { uri: 'sub%20folder/l%C3%A4mp.procedure.yaml', uriBaseId: 'CHECKED', index: 0 };
    const region = { startLine: 8, startColumn: 67, endLine: 8, endColumn: 76 };
    expect(result).toMatchObject({
      ruleId: 'unknown-name',
      level: 'error',
      locations: [
        {
          physicalLocation: { artifactLocation, region },
          logicalLocations: [{ fullyQualifiedName: 'steps/look/then/damage found' }],
        },
      ],
      partialFingerprints: { 'ruleAndKeys/v1': 'unknown-name/steps/look/then/damage found/1' },
    });
    expect(result.message.text).toMatch(/^No step or ending is called `Not_Found`\.\n/);
    expect(result.fixes[0]).toEqual({
      description: { text: 'Write `not-found`' },
      artifactChanges: [
        {
          artifactLocation,
          replacements: [{ deletedRegion: region, insertedContent: { text: 'not-found' } }],
        },
      ],
    });
    const rule = run.tool.driver.rules[result.ruleIndex];
    expect(rule).toMatchObject({ id: 'unknown-name', defaultConfiguration: { level: 'error' } });
    expect(rule.help.markdown).toMatch(/^# /);
  });

  it('gives a file outside the folder by its whole address', () => {
    const report = reportOn(rules.find(rule => rule.id === 'unreachable-step')!.bad);
    const files = report.files.map(file => ({ ...file, path: `../beside/${file.path}` }));
    const log = JSON.parse(reportAsSarif({ files }, { version: '1.2.3', folder: 'file:///home/me/' }));
    expect(validate(log), JSON.stringify(validate.errors)).toBe(true);
    const { uri, uriBaseId } = log.runs[0].artifacts[0].location;
    expect({ uri, uriBaseId }).toEqual({ uri: `file:///home/beside/${report.files[0]!.path}`, uriBaseId: undefined });
  });

  it('keeps its fingerprints when lines come and go above', () => {
    const { bad } = rules.find(rule => rule.id === 'unreachable-step')!;
    const prints = (source: string) =>
      sarif(source).runs[0].results.map((one: { partialFingerprints: object }) => one.partialFingerprints);
    expect(prints(bad.replace('format: 1', '# A line more.\nformat: 1'))).toEqual(prints(bad));
  });
});
