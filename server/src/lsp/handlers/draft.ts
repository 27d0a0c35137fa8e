import * as path from 'node:path';
import { seenOn, settableOn } from '../../planning/draft/choices.ts';
import {
  type DraftAnswer,
  type DraftChoices,
  type DraftChoicesParams,
  type DraftParams,
  draftChoicesRequest,
  draftRequest,
} from '../../protocol/draft.ts';
import { draftedAsText } from '../../publish/drafted.ts';
import { guarded, onFile } from '../guard.ts';
import type { Server } from '../server-context.ts';
import { normal } from '../texts.ts';

/** A procedure from a system file: what can be asked for, and the draft itself. */
export function registerDraft(server: Server): void {
  const { connection, workspace, prover } = server;

  connection.onRequest(
    draftChoicesRequest,
    onFile<DraftChoicesParams, DraftChoices | null>(server, 'choices for a draft', null, (view, params) => {
      if (view.kind !== 'system') return null;
      const { variants } = view.system;
      const variant = variants.find(one => one === params.variant) ?? variants[0]!;
      const bench = { system: view.system, variant, circuit: view.circuit(variant) };
      const plain = (all: ReturnType<typeof seenOn>) => all.map(one => ({ ...one, states: [...one.states] }));
      return { variants: [...variants], seen: plain(seenOn(bench)), settable: plain(settableOn(bench)) };
    }),
  );
  connection.onRequest(
    draftRequest,
    guarded<DraftParams, DraftAnswer | null>(server, 'draft', null, async (params, token) => {
      const uri = normal(params.textDocument.uri);
      if (workspace.view(uri)?.kind !== 'system') return null;
      const { variant, symptom, set, when } = params;
      const file = path.posix.basename(decodeURIComponent(uri));
      const tried = await prover.ask('draft', uri, { complaint: { symptom, set, when }, variant, file }, token);
      if (!tried) return null;
      const { drafted, refused } = tried;
      if (refused) return { refused };
      const { name, text } = drafted;
      return { drafted: { name: `${name}.procedure.yaml`, text, said: draftedAsText(drafted).trimEnd() } };
    }),
  );
}
