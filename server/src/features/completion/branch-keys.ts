import { answersOf } from '../../model/meter-answers.ts';
import type { MapShape } from '../../schema/shape.ts';
import type { Word } from './candidate.ts';
import type { Scene } from './scene.ts';

/** The keys of `then` that are not answers of the author's own: they depend on what the step does. */
export function branchKeys(maps: readonly MapShape[], { procedure, step, above, systems }: Scene): Word[] {
  if (step === undefined || !above.includes('then') || !maps.some(map => map.keyNames.includes('answer'))) return [];
  const action = procedure?.steps.get(step)?.data.action;
  if (action?.verb === 'measure') {
    const answers = answersOf(action.measure).map(text => ({ text, detail: details[text] ?? '' }));
    return action.measure === 'test lamp' ? [...answers, everythingElse] : [...answers, ...bands];
  }
  if (action?.verb === 'record')
    return [
      ...action.channels.map(({ text }) => ({ text: `${text} moved first`, detail: 'inside the time of `within`' })),
      { text: 'no event', detail: 'nothing happened while it was recorded' },
    ];
  if (action?.verb !== 'read') return [];
  if (action.limits) return bands;
  const states = systems.flatMap(system => {
    const data = action.module && system.parts.get(action.module.text)?.data;
    return data?.kind === 'module' && action.datum ? (data.scanData.get(action.datum.text)?.states ?? []) : [];
  });
  return [
    { text: 'within', detail: 'what is expected' },
    ...states.map(({ name }) => ({ text: name.text, detail: 'state' })),
    everythingElse,
  ];
}

const everythingElse: Word = { text: 'otherwise', detail: 'everything else' };

const details: Readonly<Record<string, string>> = {
  lit: 'as bright as on a battery',
  dim: 'it only glows',
  dark: 'nothing is to be seen',
  beeps: 'the two points are connected',
  silent: 'they are not connected',
};

const bands: readonly Word[] & Word[] = [
  { text: 'within', detail: 'inside the limits' },
  { text: 'below', detail: 'under the limits' },
  { text: 'above', detail: 'over the limits' },
  { text: 'otherwise', detail: 'every other reading, OL included' },
];
