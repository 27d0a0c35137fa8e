import { stepFor } from '../../features/next-step.ts';
import type { Next } from '../../planning/next.ts';
import {
  type NextAnswer,
  type NextParams,
  type NextStep,
  type NextStepParams,
  type NextTests,
  nextRequest,
  nextStepRequest,
} from '../../protocol/next.ts';
import { suspectsInWords, testInWords } from '../../publish/next.ts';
import { guarded, onFile } from '../guard.ts';
import type { Server } from '../server-context.ts';
import { normal } from '../texts.ts';

/** What is best tested at a step, and a step that does it. */
export function registerNext(server: Server): void {
  const { connection, workspace, convert, prover } = server;

  connection.onRequest(
    nextRequest,
    guarded<NextParams, NextAnswer | null>(server, 'what to test next', null, async (params, token) => {
      const uri = normal(params.textDocument.uri);
      const view = workspace.view(uri);
      if (view?.kind !== 'procedure' || !view.procedure.steps.has(params.step)) return null;
      const variants = [...new Set(view.cases.map(({ variant }) => variant))];
      const variant = params.variant ?? (variants.length === 1 ? variants[0] : undefined);
      if (variant === undefined) return { variants };
      const next = await prover.ask('next', uri, { step: params.step, variant }, token);
      return next ? { variants, tests: testsOf(next) } : { variants };
    }),
  );
  connection.onRequest(
    nextStepRequest,
    onFile<NextStepParams, NextStep | null>(server, 'step for a test', null, (view, params) => {
      const found = view.kind === 'procedure' ? stepFor(view, params) : undefined;
      if (!found) return null;
      const { name, text, offset, cursor } = found;
      const at = convert.position(view.uri, offset);
      const before = text.slice(0, cursor).split('\n');
      const line = at.line + before.length - 1;
      const character = (before.length === 1 ? at.character : 0) + before.at(-1)!.length;
      return { name, at, text, cursor: { line, character } };
    }),
  );
}

function testsOf(next: Next): NextTests {
  return {
    variant: next.variant,
    summary: suspectsInWords(next),
    tests: next.tests.map(test => {
      const { takes, tells, inAll, shows } = testInWords(test);
      const { what, title, minutes } = test;
      return { test: what, title, minutes, figures: `${takes} · ${tells} · ${inAll} min in all`, splits: shows };
    }),
  };
}
