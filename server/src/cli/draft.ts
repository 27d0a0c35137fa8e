import * as path from 'node:path';
import type { Command } from 'commander';
import { URI } from 'vscode-uri';
import type { FileView, SystemView } from '../analysis/view.ts';
import type { Bench } from '../planning/bench.ts';
import { timeSpent } from '../planning/compare.ts';
import { seenOn } from '../planning/draft/choices.ts';
import type { Complaint } from '../planning/draft/complaint.ts';
import { type Refused, tryDraft } from '../planning/draft/try-draft.ts';
import { prove } from '../proof/prove.ts';
import { comparedAsText, draftedAsText } from '../publish/drafted.ts';
import { findFiles } from './find-files.ts';
import type { Finish, Host } from './host.ts';
import { openProject, type Project } from './project.ts';
import { settingIn } from './setting.ts';
import { situationOf } from './situation.ts';
import { unknown, WrongUse } from './wrong-use.ts';

interface Options {
  readonly symptom: string;
  readonly when: readonly string[];
  readonly set: readonly string[];
  readonly variant?: string;
  readonly against?: string;
}

/** `faultwalk draft`: a procedure from a system file alone. */
export function addDraft(program: Command, host: Host, finish: Finish): void {
  const each = (value: string, before: readonly string[] = []) => [...before, value];
  program
    .command('draft')
    .summary('write a procedure from a system file')
    .description(
      'Writes a complete procedure for a complaint: look first, confirm the complaint, then what can be read and measured while it shows, in ' +
        'the best order found, a repair for every fault, and its confirmation. Limits are those that tell the faults apart over all ' +
        'tolerances. The procedure goes to the output, what is to be said about it to the error stream.',
    )
    .argument('<system>', 'a system file')
    .requiredOption('--symptom <text>', 'what somebody complains of')
    .requiredOption(
      '--when <name=state>',
      'what the machine does then: a load, an output or scan data; may be repeated',
      each,
    )
    .option('--set <name=state>', 'a condition under which it is seen; may be repeated', each, [])
    .option('--variant <name>', 'the variant; needed where the system has several')
    .option('--against <procedure>', 'compare the minutes of this procedure with those of the draft')
    .action(async (file: string, options: Options) => {
      const files = await findFiles(host.folder, [file, ...(options.against === undefined ? [] : [options.against])]);
      const project = await openProject(host.folder, files);
      const view = systemIn(project, file, host);
      const one = benchOf(view, options.variant, file);
      const complaint: Complaint = {
        symptom: options.symptom,
        set: pairsIn(options.set, '--set'),
        when: pairsIn(options.when, '--when'),
      };
      checkNames(complaint, options, one, file);
      const { drafted, refused } = tryDraft(complaint, one, path.basename(file));
      if (refused) throw new WrongUse(refused.message, helpFor[refused.because]);
      host.out(drafted.text);
      host.err(draftedAsText(drafted));
      if (options.against !== undefined) host.err(compared(project, options.against, one, drafted.minutes, host));
      finish(0);
    });
}

function systemIn(project: Project, file: string, { folder }: Host): SystemView {
  const found = viewAt(project, file, folder);
  if (found?.kind !== 'system')
    throw new WrongUse(`\`${file}\` is no system`, 'name a file that ends in `.system.yaml`');
  return found;
}

function viewAt(project: Project, file: string, folder: string): FileView | undefined {
  const full = path.resolve(folder, file);
  const uri = project.named.find(one => URI.parse(one).fsPath === full);
  return uri === undefined ? undefined : project.view(uri);
}

function benchOf(view: SystemView, variant: string | undefined, file: string): Bench {
  const { system } = view;
  const [first, ...others] = system.variants;
  if (variant === undefined && others.length > 0) {
    throw new WrongUse(
      `\`${file}\` has several variants`,
      `choose one with \`--variant\`: ${system.variants.join(', ')}`,
    );
  }
  const chosen = variant ?? first!;
  if (!system.variants.includes(chosen)) throw unknown('variant', chosen, system.variants, `\`${file}\``);
  return { system, variant: chosen, circuit: view.circuit(chosen) };
}

/** Of what is said twice the last counts. */
function pairsIn(texts: readonly string[], option: string): Complaint['set'] {
  return [...new Map(texts.map(text => settingIn(text, option)))];
}

/** What is set must be settable there, and what is seen must show something. */
function checkNames(complaint: Complaint, options: Options, one: Bench, file: string): void {
  const { circuit, system } = one;
  if (complaint.symptom.trim() === '') throw new WrongUse('The symptom is empty', 'say what somebody complains of');
  const now = situationOf({ set: options.set }, system, circuit, `\`${file}\``);
  const seen = seenOn(one);
  for (const [name, state] of complaint.when) {
    const states = seen.find(choice => choice.name === name)?.states;
    if (states && !states.includes(state)) throw unknown('state', state, states, `\`${name}\``);
    if (states || circuit.datumNamed(name) || now.states.has(name)) continue;
    const names = seen.map(choice => choice.name);
    throw unknown('load, output or scan datum', name, names, `\`${file}\``);
  }
}

const helpFor: Readonly<Record<Refused['because'], string>> = {
  'not possible': 'set a state that it can have, and what that needs',
  'good machine': 'say with `--set` in which condition it is seen',
  'no fault': 'check `--when` and `--set`, or the parts in the system file',
};

function compared(project: Project, file: string, one: Bench, minutes: number, { folder }: Host): string {
  const view = viewAt(project, file, folder);
  if (view?.kind !== 'procedure')
    throw new WrongUse(`\`${file}\` is no procedure`, 'name a file that ends in `.procedure.yaml`');
  const own = view.cases.find(other => other.system === one.system && other.variant === one.variant);
  if (!own)
    throw new WrongUse(
      `\`${file}\` does not apply to variant \`${one.variant}\` of this system`,
      'choose another variant',
    );
  return comparedAsText(file, timeSpent(prove(view), own), minutes);
}
