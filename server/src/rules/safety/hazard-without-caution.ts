import type { ProcedureView } from '../../analysis/view.ts';
import type { Fix } from '../../base/finding.ts';
import { existsIn } from '../../model/common.ts';
import { type Ending, type EndingData, endingIn } from '../../model/procedure.ts';
import { type Caution, type SignalWord, type Step, type StepData, stepIn } from '../../model/step.ts';
import { find } from '../../syntax/tree.ts';
import { type Context, contextOf, type On } from '../each-step.ts';
import { addKey } from '../fixes.ts';
import type { Finding, Rule } from '../rule.ts';
import { name } from '../wording.ts';
import { pressProcedure } from './example.ts';
import { cautionsIn, type Hazards, hazardsAt, hazardsIn, type Touched, touchedIn } from './hazards.ts';

export const hazardWithoutCaution: Rule = {
  id: 'hazard-without-caution',
  severity: 'warning',
  group: 'safety',
  on: 'procedure',
  title: 'Work at a place marked as hazardous, without a caution',
  explanation: `
The system file marks this part or connector with a \`hazard\`. A step that looks at it, measures at it, takes it apart or provokes it, and a
repair that works on it, says so before the action: with a caution of its own, or with one of the whole procedure that names the hazard or
the part. High voltage and pyrotechnics want \`danger\` or \`warning\` on the step itself, for nobody remembers the first page at step thirty.

The four signal words are those of ANSI Z535.4: \`danger\`, death or serious injury will follow if it is not avoided; \`warning\`, it could follow;
\`caution\`, minor or moderate injury could follow; \`notice\`, nobody is hurt, but something may be damaged.

A caution of the procedure is known to name a hazard by words such as "pressure", "hot" or "battery acid", or by the name or title of the
part. In another language name the part, or write the caution on the step.`,
  bad: pressProcedure(`
steps:
  look:
    set: { key: off }
    inspect: [W4, Y1]
#                 ^^ warning hazard-without-caution: \`Y1\` is marked \`stored pressure\`, and no caution says so [fix]
    then: { damage found: ask-the-maker, all sound: not-found }
`),
  good: pressProcedure(`
steps:
  look:
    set: { key: off }
    cautions: [{ warning: Release the pressure before working at the valve }]
    inspect: [W4, Y1]
    then: { damage found: ask-the-maker, all sound: not-found }
`),
  *check(view) {
    const { steps, endings } = view.procedure;
    const setting = settingOf(view);
    for (const step of steps.values()) yield* kept(step, setting, stepIn);
    for (const ending of endings.values()) yield* kept(ending, setting, endingIn);
  },
};

/** What a step is judged by beside its own text. The same object is given while none of it changes. */
interface Setting {
  readonly cautions: readonly Caution[];
  readonly marked: readonly (On & { readonly hazards: Hazards })[];
}

function settingOf(view: ProcedureView): Setting {
  const context = contextOf(view);
  const { cautions } = view.procedure;
  const key = JSON.stringify(cautions.map(({ word, text, only = [] }) => [word, text, ...only.map(v => v.text)]));
  const before = settings.get(context);
  if (before?.key === key) return before.setting;
  const marked = context.cases.map(one => ({ ...one, hazards: hazardsIn(one) })).filter(one => one.hazards.size > 0);
  const setting = { cautions, marked };
  settings.set(context, { key, setting });
  return setting;
}

const settings = new WeakMap<Context, { key: string; setting: Setting }>();

/** What was found in a step, for as long as neither it nor its setting changes. */
function kept<T extends Step | Ending>(
  thing: T,
  setting: Setting,
  dataIn: (thing: T, variant: string) => StepData | EndingData,
): readonly Finding[] {
  const before = memory.get(thing);
  if (before?.setting === setting) return before.found;
  const found = findings(thing, setting, variant => dataIn(thing, variant));
  memory.set(thing, { setting, found });
  return found;
}

const memory = new WeakMap<Step | Ending, { setting: Setting; found: readonly Finding[] }>();

/** One finding for each hazard, however many things of its kind are touched. */
function findings(
  thing: Step | Ending,
  setting: Setting,
  dataIn: (variant: string) => StepData | EndingData,
): readonly Finding[] {
  const found = new Map<string, Finding>();
  for (const one of setting.marked) {
    if (!existsIn(thing, one.variant)) continue;
    const data = dataIn(one.variant);
    for (const touched of touchedIn(data)) {
      for (const hazard of hazardsAt(touched, one.hazards)) {
        if (found.has(hazard) || isTold(hazard, touched, data, setting, one)) continue;
        found.set(hazard, finding(thing, data, touched, hazard));
      }
    }
  }
  return [...found.values()];
}

function isTold(
  hazard: string,
  { name: part }: Touched,
  { cautions }: StepData | EndingData,
  setting: Setting,
  { system, variant }: On,
): boolean {
  const own = cautionsIn(cautions, variant);
  if (gravest.has(hazard)) return own.some(c => c.word === 'danger' || c.word === 'warning');
  if (own.some(c => c.word !== 'notice')) return true;
  const { title } = system.parts.get(part) ?? system.connectors.get(part) ?? {};
  return cautionsIn(setting.cautions, variant).some(({ word, text }) => {
    const isNamed = [part, title].some(n => n && text.toLowerCase().includes(n.toLowerCase()));
    return word !== 'notice' && (isNamed || words[hazard]?.test(text));
  });
}

/** Hazards that kill without a second chance. */
const gravest: ReadonlySet<string> = new Set(['high voltage', 'pyrotechnic']);

/** Words by which a caution of the whole procedure is known to speak of a hazard. */
const words: Readonly<Record<string, RegExp>> = {
  'stored pressure': /pressur|accumulator/i,
  'moving parts': /\b(mov|turn|rotat|spin|crank|crush|pinch|belt|fan)|by itself/i,
  hot: /\bhot\b|\bheat|burn|scald|cool down/i,
  chemical: /chemical|acid|\blye\b|corros|vapour|vapor|fume|\bgas|electrolyte|coolant|fuel/i,
};

function finding(
  thing: Step | Ending,
  data: StepData | EndingData,
  { name: part, ref }: Touched,
  hazard: string,
): Finding {
  const isGrave = gravest.has(hazard);
  const weak = isGrave && data.cautions.length > 0;
  return {
    rule: 'hazard-without-caution',
    place: ref.place,
    message: weak
      ? `${name(part, 24)} is marked \`${hazard}\`, which wants \`danger\` or \`warning\``
      : `${name(part, 24)} is marked \`${hazard}\`, and no caution says so`,
    detail: isGrave
      ? `At \`${hazard}\` the step itself says \`danger\` or \`warning\` before the action.`
      : `${name(thing.id)} has no caution, and those of the whole procedure do not name this hazard or the part.`,
    help: `Write what to do before the action under \`cautions\`, with one of the signal words.`,
    fixes: addCaution(thing, part, hazard),
  };
}

function addCaution(thing: Step | Ending, part: string, hazard: string): readonly Fix[] {
  const [word, what] = firstDraft[hazard] ?? ['warning', 'Mind'];
  return find(thing.entry.value, 'cautions') ? [] : addKey(thing, 'cautions', `[{ ${word}: ${what} ${part} }]`);
}

const firstDraft: Readonly<Record<string, readonly [SignalWord, string]>> = {
  'high voltage': ['danger', 'Switch off, lock out and prove dead before touching'],
  pyrotechnic: ['danger', 'Cut the supply and wait as the maker says before touching'],
  'stored pressure': ['warning', 'Release the pressure before working at'],
  'moving parts': ['warning', 'Keep clear of'],
  hot: ['caution', 'Let it cool down before touching'],
  chemical: ['warning', 'Wear gloves and eye protection at'],
};
