import { titleOf } from '../../analysis/values/lines.ts';
import { formatQuantity } from '../../base/quantity/format.ts';
import { type Part, partIn } from '../../model/parts.ts';
import type { Tree } from '../../sequence/problem.ts';
import type { Bench } from '../bench.ts';
import type { Suspect } from '../suspect.ts';
import type { Complaint } from './complaint.ts';
import { leadNeedsBackProbe } from './leads.ts';
import { pairs, quoted, slug } from './text.ts';
import type { Planned, Step } from './tree.ts';

/** The text of a whole procedure file. `file` is the system file as the procedure names it. */
export function writeDraft(
  complaint: Complaint,
  one: Bench,
  file: string,
  items: readonly Suspect[],
  suspects: readonly Suspect[],
  planned: Planned,
): string {
  return new Draft(complaint, one, file, items, suspects, planned).text();
}

class Draft {
  readonly #steps: string[] = [];
  readonly #endings = new Map<string, string>();
  readonly #names = new Set<string>();
  readonly #complaint: Complaint;
  readonly #one: Bench;
  readonly #file: string;
  readonly #items: readonly Suspect[];
  readonly #suspects: readonly Suspect[];
  readonly #planned: Planned;

  constructor(
    complaint: Complaint,
    one: Bench,
    file: string,
    items: readonly Suspect[],
    suspects: readonly Suspect[],
    planned: Planned,
  ) {
    this.#complaint = complaint;
    this.#one = one;
    this.#file = file;
    this.#items = items;
    this.#suspects = suspects;
    this.#planned = planned;
  }

  text(): string {
    const { symptom, set, when } = this.#complaint;
    const { system, variant } = this.#one;
    this.#look();
    this.#tryIt();
    const first = this.#tree(this.#planned.best.tree);
    const steps = this.#steps.map(step => step.replaceAll(firstTest, first));
    this.#endings.set('done', '{ repaired: The complaint is gone }');
    this.#endings.set('nothing-wrong', '{ no fault: Complaint could not be confirmed }');
    const applies = system.variants.length > 1 ? variant : 'all';
    const shown = [...new Set(this.#items.map(({ fault }) => fault!.id))];
    const entry = [
      `symptom: ${quoted(symptom)}`,
      'nature: hard',
      ...(set.length > 0 ? [`set: ${pairs(set)}`] : []),
      `when: ${pairs(when)}`,
      ...(shown.length > 0 ? [`shows: [${shown.map(quoted).join(', ')}]`] : []),
    ];
    return `format: 1
procedure: ${slug(symptom)}
title: ${quoted(capital(symptom))}
applies to: { ${quoted(this.#file)}: ${applies} }
starts from:
  - { ${entry.join(', ')} }
tools: [multimeter, back-probe pins${this.#planned.steps.some(({ words }) => words) ? ', scan tool' : ''}]
cautions:
${this.#cautions().join('\n')}
start: look

steps:
${steps.join('\n')}
  confirm:
    title: Confirm the repair
    minutes: 5
${setLine(set)}    operate: Try once more what was complained of
    then:
      it works: done
      as before: look

endings:
${[...this.#endings].map(([name, text]) => `  ${name}: ${text}`).join('\n')}
`;
  }

  /** Hazards of the parts that are worked at, and what always holds. */
  #cautions(): readonly string[] {
    return [
      '  - notice: This draft follows from the circuit alone; local codes and the instructions of the maker come first',
      ...warningsAt([...this.#one.system.parts.keys()], this.#one).map(text => `  - warning: ${text}`),
    ];
  }

  /** Eyes first: what only they can find, and what can be seen of the wiring around the load. */
  #look(): void {
    const { system } = this.#one;
    const owners = [...new Set(this.#items.map(({ owner }) => owner))];
    const seen = [...new Set(this.#suspects.map(({ owner }) => owner))]
      .filter(owner => system.wires.some(w => w.id === owner))
      .slice(0, mostSeen);
    const words = this.#items.map(({ owner, fault }) => `${system.parts.get(owner)?.title ?? owner} ${fault!.kind}`);
    const answers = this.#items.map(({ owner, fault }, i) => {
      const ending = this.#ending([owner]);
      const isOne = words.indexOf(words[i]!) === words.lastIndexOf(words[i]!);
      return `      ${quoted(isOne ? words[i]! : `${words[i]} (${owner})`)}: { go to: ${ending}, shows: [${quoted(fault!.id)}] }`;
    });
    const damage =
      seen.length > 0
        ? [`      a wire is damaged: { go to: ${this.#ending(seen)}, shows: [${seen.map(quoted).join(', ')}] }`]
        : [];
    this.#steps.push(`  look:
    title: Look before anything is measured
    minutes: ${5 + 2 * owners.length}
${cautionsAt(owners, this.#one)}    inspect: [${[...seen, ...owners].map(quoted).join(', ')}]
    then:
${[...damage, ...answers, '      all sound: try-it'].join('\n')}`);
  }

  #tryIt(): void {
    const { set, when } = this.#complaint;
    this.#steps.push(`  try-it:
    title: Confirm the complaint
    minutes: 3
${setLine(set)}    operate: Try what is complained of
    then:
      as complained: { go to: ${firstTest}, when: ${pairs(when)} }
      it works: nothing-wrong`);
  }

  /** The name of the step or ending that the tree begins with. */
  #tree(tree: Tree): string {
    if (tree.test === undefined)
      return this.#ending([...new Set(tree.suspects.map(place => this.#suspects[place]!.owner))]);
    const step = this.#planned.steps[tree.test]!;
    const name = this.#fresh(step.words ? `read-${nameOf(step)}` : `at-${nameOf(step)}`);
    const place = this.#steps.length;
    this.#steps.push('');
    const to = (branch: number): string => {
      const next = tree.branches.find(({ outcome }) => outcome === branch);
      return next ? this.#tree(next.tree) : '';
    };
    this.#steps[place] = this.#step(name, step, to);
    return name;
  }

  #step(name: string, step: Step, to: (branch: number) => string): string {
    const { system, variant } = this.#one;
    const { what, minutes } = step.candidate;
    const head = (title: string) => `  ${name}:
    title: ${quoted(title)}
    minutes: ${minutes}
${setLine(this.#complaint.set)}`;
    if (what.do === 'read') {
      const [within, otherwise] = [to(0), to(1)];
      return `${head(`${capital(what.datum)} in the scan data`)}    read: ${what.module} ${what.datum}
    expect: ${quoted(step.words![0]!)}
    then: { within: ${within || otherwise}, otherwise: ${otherwise || within} }`;
    }
    if (what.do !== 'measure') return '';
    const { bands } = step.banded!;
    const { low, high } = bands.within;
    const targets = [to(0), ...bands.others.map((_, i) => to(i + 1))];
    const some = targets.find(target => target !== '')!;
    // A branch that no suspect takes leads where the nearest one does, so that every reading leads somewhere.
    const lines = [
      `within: ${targets[0] || some}`,
      ...bands.others.map(({ key, volts }, i) => {
        const band = volts === undefined ? key : `${key} ${formatQuantity(volts, 'voltage', { digits: 6 })}`;
        return `${band}: ${targets[i + 1] || some}`;
      }),
    ];
    const lead = (point: string) => `${point}${leadNeedsBackProbe(this.#one, point) ? ' (back-probe)' : ''}`;
    const title = titleOf(what.red, { system, variant });
    return `${head(`Voltage at ${title === what.red ? what.red : `${title}, ${what.red}`}`)}${cautionsAt([partAt(what.red)], this.#one)}    measure: voltage
    red: ${lead(what.red)}
    black: ${lead(what.black)}
    limits: ${formatQuantity(low, 'voltage', { digits: 6 })} .. ${formatQuantity(high, 'voltage', { digits: 6 })}
    then: { ${lines.join(', ')} }`;
  }

  /** One ending for each set of owners. */
  #ending(owners: readonly string[]): string {
    const sorted = [...owners].sort();
    const verb = sorted.every(owner => this.#one.system.parts.has(owner)) ? 'replace' : 'mend';
    const warnings = warningsAt(sorted, this.#one).map(text => `{ warning: ${quoted(text)} }`);
    const cautions = warnings.length > 0 ? `cautions: [${warnings.join(', ')}], ` : '';
    const text = `{ ${verb}: [${sorted.map(quoted).join(', ')}], ${cautions}confirm: confirm }`;
    for (const [name, known] of this.#endings) if (known === text) return name;
    const name = this.#fresh(
      `${verb}-${sorted.slice(0, 2).map(slug).join('-')}${sorted.length > 2 ? `-and-${sorted.length - 2}-more` : ''}`,
    );
    this.#endings.set(name, text);
    return name;
  }

  #fresh(wanted: string): string {
    let name = wanted;
    for (let i = 2; this.#names.has(name); i++) name = `${wanted}-${i}`;
    this.#names.add(name);
    return name;
  }
}

/** Stands for the first test until it has its name; no author can write it. */
const firstTest = '\u0000first';

/** So many wires are looked at before anything is measured. */
const mostSeen = 8;

const hazardWords: Readonly<Record<string, string>> = {
  'stored pressure': 'Release stored pressure before a line or a block is opened',
  chemical: 'Battery gas explodes; no flame, no spark, wear eye protection',
  hot: 'Let hot parts cool down',
  'moving parts': 'Keep clear of moving parts',
  'high voltage': 'High voltage; work on it is for qualified people only',
  pyrotechnic: 'Never put a meter or a lamp to a pyrotechnic part',
};

/** What to beware of where these are worked at. */
function warningsAt(owners: readonly string[], { system, variant }: Bench): readonly string[] {
  const parts = owners.flatMap((owner): Part[] => (system.parts.has(owner) ? [system.parts.get(owner)!] : []));
  const hazards = [...new Set(parts.flatMap(part => partIn(part, variant).hazards.map(h => h.text)))];
  return hazards.map(hazard => hazardWords[hazard] ?? `Beware, ${hazard}`);
}

function cautionsAt(owners: readonly string[], one: Bench): string {
  const warnings = warningsAt(owners, one);
  return warnings.length === 0 ? '' : `    cautions:\n${warnings.map(text => `      - warning: ${text}\n`).join('')}`;
}

function partAt(point: string): string {
  const dot = point.lastIndexOf('.');
  return dot < 0 ? point : point.slice(0, dot);
}

function nameOf({ candidate: { what } }: Step): string {
  if (what.do === 'measure') return slug(what.red);
  return what.do === 'read' ? slug(`${what.module} ${what.datum}`) : slug(what.item);
}

function setLine(set: Complaint['set']): string {
  return set.length > 0 ? `    set: ${pairs(set)}\n` : '';
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
