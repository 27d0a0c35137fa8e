import type { Coverage, CoveredEnd, CoveredWalk } from '../proof/coverage.ts';
import { isBad } from '../proof/walk-fault.ts';
import { faultInWords, figuresInWords, machineInWords, percent, resultWords, wayInWords } from '../proof/words.ts';
import { harmless, type Paint, plain } from './paint.ts';
import type { ProvedFile } from './proof-json.ts';

/** What became of every fault, for a reader at a terminal: the figures of each variant, then every walk that ends badly. */
export function proofAsText(files: readonly ProvedFile[], paint: Paint = plain): string {
  const blocks = files.map(({ path, coverage, pairs = [] }) =>
    [
      paint('bold', harmless(path)),
      ...coverage.map(one => variantAsText(one, paint)),
      ...pairs.map(one => pairsAsText(one, paint)),
    ].join('\n\n'),
  );
  return `${blocks.join('\n\n')}\n`;
}

function variantAsText(one: Coverage, paint: Paint): string {
  const { variant, figures, walks } = one;
  const { byResult } = figures;
  const counts = resultWords.flatMap(([result, title, meaning]) =>
    byResult[result] > 0
      ? [
          `  ${title.padEnd(13)} ${String(byResult[result]).padStart(5)}  ${percent(byResult[result] / figures.walks).padStart(6)}  ${paint('dim', meaning)}`,
        ]
      : [],
  );
  const bad = walks.filter(({ result }) => isBad(result));
  const open = walks.filter(({ proved, result }) => !proved && !isBad(result) && result !== 'unknown');
  return [
    `${paint('bold', harmless(variant))}: ${figures.walks} walks of faults`,
    ...counts,
    ...figuresInWords(one).map(line => `  ${harmless(line)}`),
    ...section('Bad ends', bad, paint, walk => walk.ends[0]!),
    ...section('Neither proved nor ruled out', open, paint, walk => walk.ends.find(end => end.open) ?? walk.ends[0]!),
  ].join('\n');
}

/** What was covered comes first: a sample proves nothing about the rest. */
function pairsAsText(one: NonNullable<ProvedFile['pairs']>[number], paint: Paint): string {
  const { variant, possible, tried, shown, byResult, bad } = one;
  const extent = tried === possible ? `all ${possible}` : `${tried} of ${possible}, spread evenly,`;
  const counts = resultWords.flatMap(([result, title]) =>
    byResult[result] > 0 ? [`${byResult[result]} ${title}`] : [],
  );
  const groups = new Map<string, string[]>();
  for (const { faults, result, at } of bad) {
    const key = `${result} at ${at}`;
    groups.set(key, [...(groups.get(key) ?? []), faults.join(' with ')]);
  }
  return [
    `${paint('bold', harmless(variant))}: ${extent} pairs of faults that stay; ${shown} show a symptom: ${counts.join(', ') || 'none'}`,
    ...[...groups].flatMap(([at, pairs]) => {
      const more = pairs.length > mostPairs ? `, and ${pairs.length - mostPairs} more` : '';
      return [`  ${paint('error', harmless(at))}: ${harmless(pairs.slice(0, mostPairs).join(', '))}${more}`];
    }),
  ].join('\n');
}

const mostPairs = 4;

/** Walks that come to one end by one result stand together, so that a list of hundreds can be read. */
function section(
  title: string,
  walks: readonly CoveredWalk[],
  paint: Paint,
  endOf: (walk: CoveredWalk) => CoveredEnd,
): string[] {
  if (walks.length === 0) return [];
  const groups = new Map<string, CoveredWalk[]>();
  for (const walk of walks) {
    const end = endOf(walk);
    const key = `${end.result} ${end.at} ${end.why}`;
    groups.set(key, [...(groups.get(key) ?? []), walk]);
  }
  const lines = [...groups.values()].flatMap(group => {
    const [first] = group;
    const end = endOf(first!);
    const at = end.isEnding ? `at ${end.at}` : `at ${end.at}: ${end.why}`;
    const machine = end.machine.length > 0 ? [`      with ${machineInWords(end)}`] : [];
    return [
      `    ${paint(title === 'Bad ends' ? 'error' : 'warning', end.result)} ${harmless(at)}`,
      ...wrapped(group.map(faultInWords)).map(line => `      ${harmless(line)}`),
      `      ${paint('dim', harmless(wayInWords(end)))}`,
      ...machine.map(harmless),
    ];
  });
  return [`  ${paint('bold', title)}`, ...lines];
}

function wrapped(names: readonly string[]): string[] {
  const lines: string[] = [];
  for (const name of [...new Set(names)]) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + name.length < 110) lines[lines.length - 1] = `${last}, ${name}`;
    else lines.push(name);
  }
  return lines;
}
