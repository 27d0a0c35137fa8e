import type { Severity } from '../base/finding.ts';
import { ruleById } from '../rules/index.ts';
import type { Rule } from '../rules/rule.ts';
import type { Range, Report, ReportedFile, ReportedFinding, ReportedFix } from './report.ts';
import { rulePage } from './rule-page.ts';

/** What a report in SARIF says beside its findings. */
export interface SarifSettings {
  /** Of this program. */
  readonly version: string;
  /** Uri of the folder that the paths of the report are relative to; ends in `/`. */
  readonly folder: string;
}

/** The report as a log of the Static Analysis Results Interchange Format (OASIS standard SARIF 2.1.0). */
export function reportAsSarif(report: Report, settings: SarifSettings): string {
  const writer = new Writer(report, settings.folder);
  const log = {
    $schema: 'https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json',
    version: '2.1.0',
    runs: [
      {
        tool: { driver: { name: 'Faultwalk', semanticVersion: settings.version, rules: writer.rules.map(descriptor) } },
        invocations: [{ executionSuccessful: true }],
        columnKind: 'utf16CodeUnits',
        newlineSequences: ['\r\n', '\n', '\r'],
        originalUriBaseIds: { [base]: { uri: settings.folder } },
        artifacts: report.files.map(({ path }) => ({ location: writer.location(path), roles: ['analysisTarget'] })),
        results: report.files.flatMap(file => writer.results(file)),
      },
    ],
  };
  return `${JSON.stringify(log, undefined, 2)}\n`;
}

const base = 'CHECKED';

class Writer {
  /** The rules that found something, in the order of the manual. */
  readonly rules: readonly Rule[];
  readonly #folder: string;
  readonly #artifacts: ReadonlyMap<string, number>;
  readonly #ruleIndex: ReadonlyMap<string, number>;

  constructor({ files }: Report, folder: string) {
    const found = new Set(files.flatMap(file => file.findings.map(finding => finding.rule)));
    this.rules = [...ruleById.values()].filter(rule => found.has(rule.id));
    this.#folder = folder;
    this.#artifacts = new Map(files.map(({ path }, i) => [path, i]));
    this.#ruleIndex = new Map(this.rules.map(({ id }, i) => [id, i]));
  }

  /** A path that leads out of the folder is given whole, for a reader might put another folder in its place. */
  location(path: string) {
    const uri = path.split('/').map(encodeURIComponent).join('/');
    const isInside = !path.startsWith('../') && !path.startsWith('/') && !/^[a-z]:/i.test(path);
    const index = this.#artifacts.get(path);
    const where = isInside ? { uri, uriBaseId: base } : { uri: new URL(uri, this.#folder).href };
    return index === undefined ? where : { ...where, index };
  }

  results({ path, findings }: ReportedFile) {
    const met = new Map<string, number>();
    return findings.map(finding => {
      const { rule, severity, range, keys, related, fixes } = finding;
      const identity = [rule, ...keys].join('/');
      const count = (met.get(identity) ?? 0) + 1;
      met.set(identity, count);
      return {
        ruleId: rule,
        ruleIndex: this.#ruleIndex.get(rule),
        level: levels[severity],
        message: message(sentences(finding)),
        locations: [
          {
            physicalLocation: this.#place(path, range),
            ...(keys.length > 0 && { logicalLocations: [{ fullyQualifiedName: keys.join('/') }] }),
          },
        ],
        // The keys that lead to a place stay the same when lines come and go elsewhere.
        partialFingerprints: { 'ruleAndKeys/v1': `${identity}/${count}` },
        ...(related.length > 0 && {
          relatedLocations: related.map((one, i) => ({
            id: i + 1,
            physicalLocation: this.#place(one.path, one.range),
            message: message(one.message),
          })),
        }),
        ...(fixes.length > 0 && { fixes: fixes.map(fix => this.#fix(fix)) }),
      };
    });
  }

  #place(path: string, range: Range) {
    return { artifactLocation: this.location(path), region: region(range) };
  }

  #fix({ title, edits }: ReportedFix) {
    const paths = [...new Set(edits.map(edit => edit.path))];
    return {
      description: message(title),
      artifactChanges: paths.map(path => ({
        artifactLocation: this.location(path),
        replacements: edits
          .filter(edit => edit.path === path)
          .map(edit => ({ deletedRegion: region(edit.range), insertedContent: { text: edit.text } })),
      })),
    };
  }
}

const levels: Record<Severity, string> = { error: 'error', warning: 'warning', information: 'note', hint: 'note' };

function descriptor(rule: Rule) {
  return {
    id: rule.id,
    shortDescription: { text: rule.title },
    fullDescription: { text: rule.explanation.trim() },
    help: { text: rule.explanation.trim(), markdown: rulePage(rule) },
    defaultConfiguration: { level: levels[rule.severity] },
    properties: { tags: [rule.group] },
  };
}

/** Both count from 1, and the end is the place behind the last character. */
function region({ start, end }: Range) {
  return {
    startLine: start.line + 1,
    startColumn: start.character + 1,
    endLine: end.line + 1,
    endColumn: end.character + 1,
  };
}

function sentences({ message, detail, help }: ReportedFinding): string {
  return [`${message}.`, detail, help && `Help: ${help}`].filter(text => text).join('\n');
}

/** Section 3.11.5 of the standard: braces stand for arguments unless they are doubled. */
function message(text: string) {
  return { text: text.replace(/[{}]/g, '$&$&') };
}
