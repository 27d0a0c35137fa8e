import type { ProcedureView } from '../../analysis/view.ts';
import { coverageState, previewWalk } from '../../features/coverage/coverage.ts';
import {
  type CoverageAnswer,
  type CoverageParams,
  type CoverageWalkParams,
  coverageRequest,
  coverageWalkRequest,
} from '../../protocol/coverage.ts';
import type { PreviewWalk } from '../../protocol/preview.ts';
import { onFile } from '../guard.ts';
import type { Server } from '../server-context.ts';

/** What the panel of coverage asks for. */
export function registerCoverage(server: Server): void {
  const { connection, workspace, prover } = server;
  /** Every fault is walked anew if that has not been done for the texts as they are; what is known until then is of earlier ones. */
  const walked = (view: ProcedureView) => {
    prover.want(view.uri);
    const known = prover.proofOf(view.uri);
    return known && { coverage: known.proved.coverage, isEarlier: !known.isFresh };
  };

  connection.onRequest(
    coverageRequest,
    onFile<CoverageParams, CoverageAnswer | null>(server, 'coverage', null, (view, { look }) => {
      if (view.kind !== 'procedure') return null;
      const known = walked(view);
      const failed = prover.failureOf(view.uri);
      return failed ? { failed } : { state: known && coverageState(workspace, view, known, look) };
    }),
  );
  connection.onRequest(
    coverageWalkRequest,
    onFile<CoverageWalkParams, PreviewWalk | null>(server, 'walk of a fault', null, (view, params) => {
      const known = view.kind === 'procedure' ? walked(view) : undefined;
      return (known && previewWalk(known, params)) ?? null;
    }),
  );
}
