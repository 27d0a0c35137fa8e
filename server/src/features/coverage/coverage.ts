import type { ProcedureView } from '../../analysis/view.ts';
import type { Coverage, CoveredFault, CoveredWalk } from '../../proof/coverage.ts';
import { isBad } from '../../proof/walk-fault.ts';
import { faultInWords, isUnproved } from '../../proof/words.ts';
import type { CoverageLook, CoverageState, EndColumn, WalkList } from '../../protocol/coverage.ts';
import type { PreviewWalk } from '../../protocol/preview.ts';
import { courseNamed, idOf, variantOptions } from '../preview/options.ts';
import { standingTitle, titleOf } from '../preview/titles.ts';
import type { Project } from '../project.ts';
import { isLookedFor } from './choose.ts';
import { listOf } from './list.ts';
import { matrixOf } from './matrix.ts';
import { endShares, figureRows, resultShares } from './shares.ts';

/** What became of every fault, and whether that was so in an earlier text. */
export interface Walked {
  readonly coverage: readonly Coverage[];
  readonly isEarlier: boolean;
}

/** What the panel shows of a procedure whose faults have been walked; undefined where the variant has not been walked yet. */
export function coverageState(
  project: Project,
  view: ProcedureView,
  { coverage, isEarlier }: Walked,
  look: CoverageLook,
): CoverageState | undefined {
  const course = courseNamed(view, look.variant, undefined);
  const one = coverageWith(coverage, idOf(course));
  if (!one) return undefined;
  const ofSystem = project.view(one.system);
  const system = ofSystem?.kind === 'system' ? ofSystem.system : undefined;
  const ownerTitle = (owner: string) => titleOf(system, owner) ?? '';
  const endTitle = (at: string) => standingTitle(view.procedure, one.variant, at);

  const ofFaults = one.walks.filter(({ fault }) => fault !== '');
  const columns = columnsOf(view, one.walks, endTitle);
  const isShown = isLookedFor(look, ownerTitle);
  const numbered = one.walks.map((walk, index) => ({ walk, index }));
  const listed = look.list?.narrowed ? numbered.filter(({ walk }) => isShown(walk)) : numbered;
  const list = look.list && listOf(listed, look.list, endTitle);
  const unproved = ofFaults.filter(isUnproved).length;
  const summary = summaryOf(ofFaults, one.walks);
  return {
    title: view.procedure.title ?? view.procedure.id?.text ?? 'Procedure',
    look: { ...look, variant: idOf(course), list: list && look.list },
    isEarlier,
    variants: variantOptions(view, course),
    summary,
    results: resultShares(ofFaults),
    figures: figureRows(one),
    ends: endShares(ofFaults, columns),
    matrix: matrixOf(one.walks.filter(isShown), columns, look, ownerTitle, countOf(ofFaults)),
    ...(unproved > 0 && {
      unproved: { text: `${plural(unproved, 'walk')} neither proved nor ruled out`, choice: { unproved: true } },
    }),
    notWalked: notWalked(one),
    list,
    said: saidOf(summary, list, isEarlier),
  };
}

/** The walk to one of its ends, for the preview. */
export function previewWalk(
  { coverage }: Pick<Walked, 'coverage'>,
  { variant, walk, end }: { readonly variant?: string; readonly walk: number; readonly end: number },
): PreviewWalk | undefined {
  const found = coverageWith(coverage, variant)?.walks[walk];
  const way = found?.ends[end];
  if (!found || !way) return undefined;
  const { entry, start } = found;
  return {
    variant,
    ...(entry === '' ? { from: start } : { start: entry }),
    answers: way.path.map(move => ({ ...move })),
  };
}

/** Variants are known by the same ids as in the preview. */
function coverageWith(coverage: readonly Coverage[], id: string | undefined): Coverage | undefined {
  return id === undefined ? coverage[0] : coverage.find(({ system, variant }) => `${system}#${variant}` === id);
}

/** Everything at which a walk ends or may end, in the order of the text; endings first. */
function columnsOf(
  { procedure }: ProcedureView,
  walks: readonly CoveredWalk[],
  titleOfEnd: (at: string) => string,
): EndColumn[] {
  const found = new Map(walks.flatMap(({ ends }) => ends.map(({ at, isEnding }) => [at, isEnding] as const)));
  const order = [...procedure.endings.keys(), ...procedure.steps.keys()];
  const placeOf = (at: string) => (order.includes(at) ? order.indexOf(at) : order.length);
  return [...found]
    .sort(([a], [b]) => placeOf(a) - placeOf(b))
    .map(([at, isEnding]) => ({ at, title: titleOfEnd(at), isEnding }));
}

function summaryOf(ofFaults: readonly CoveredWalk[], all: readonly CoveredWalk[]): string {
  const bad = ofFaults.filter(({ result }) => isBad(result)).length;
  const open = ofFaults.filter(isUnproved).length;
  const isGoodRight = all.every(({ fault, result }) => fault !== '' || !isBad(result));
  return `${faultsInWords(ofFaults.length, bad, open)} A machine without a fault ends ${isGoodRight ? 'well' : 'badly'}.`;
}

function faultsInWords(many: number, bad: number, open: number): string {
  if (many === 0) return 'No fault shows any of its symptoms and codes.';
  const walks = `${plural(many, 'walk')} of faults`;
  if (bad + open === 0) return many === 1 ? 'The one walk of a fault ends well.' : `All ${walks} end well.`;
  const badly = bad === 0 ? 'none ends badly' : bad === 1 ? '1 ends badly' : `${bad} end badly`;
  return `Of ${walks} ${badly}${open === 0 ? '' : `, and of ${open} a bad end is not ruled out`}.`;
}

function countOf(walks: readonly CoveredWalk[]): number {
  return new Set(walks.map(faultInWords)).size;
}

function notWalked({ elsewhere, leftOut }: Coverage): CoverageState['notWalked'] {
  const lots = [...new Set(leftOut.map(({ because }) => because))].map(because => {
    const faults = leftOut.filter(one => one.because === because);
    return {
      title: `${plural(faults.length, 'fault')} left out by the file`,
      reason: because,
      owners: byOwner(faults),
    };
  });
  const others = {
    title: `${plural(elsewhere.length, 'fault')} elsewhere`,
    reason: 'On a machine with one of these, none of the symptoms and codes of this procedure is shown.',
    owners: byOwner(elsewhere),
  };
  return [...lots, ...(elsewhere.length > 0 ? [others] : [])];
}

function byOwner(faults: readonly CoveredFault[]): { owner: string; faults: string[] }[] {
  const owners = [...new Set(faults.map(({ owner }) => owner))];
  return owners.map(owner => ({ owner, faults: faults.filter(one => one.owner === owner).map(faultInWords) }));
}

function saidOf(summary: string, list: WalkList | undefined, isEarlier: boolean): string {
  const said = list ? list.title : summary;
  return isEarlier ? `${said} An earlier text; every fault is being walked anew.` : said;
}

function plural(many: number, noun: string): string {
  return `${many} ${noun}${many === 1 ? '' : 's'}`;
}
