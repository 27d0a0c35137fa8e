import * as path from 'node:path';
import { type Proved, provedNotification } from '../../protocol/coverage.ts';
import { statusNotification } from '../../protocol/messages.ts';
import type { Server } from '../server-context.ts';
import type { Bench } from './bench.ts';
import { Prover } from './prover.ts';

/** The prover, at work on the files of this server; `recheck` has findings published anew. */
export function proverOf(server: () => Server, bench: Bench, recheck: (uris: readonly string[]) => void): Prover {
  const prover = new Prover(
    {
      files: uri => filesOf(server(), uri),
      levels: async uri => {
        const { settings, roots } = server();
        return new Map(Object.entries((await settings.for(roots.of(uri))).rules));
      },
      begun: uri => {
        const text = `Walking every fault through ${path.posix.basename(uri)}`;
        server()
          .connection.sendNotification(statusNotification, { state: 'checking', text })
          .catch(() => undefined);
      },
      ended: uri => {
        recheck([uri]);
        // Who is told asks again: only where there is something new to be said.
        if (!prover.proofOf(uri)?.isFresh && prover.failureOf(uri) === undefined) return;
        const proved: Proved = { uri: server().texts.document(uri)?.uri ?? uri };
        server()
          .connection.sendNotification(provedNotification, proved)
          .catch(() => undefined);
      },
      report: (where, error) => server().report(where, error),
    },
    bench,
  );
  return prover;
}

/** A procedure, its systems and all that they include; or a system and all that it includes. */
function filesOf({ workspace, texts }: Server, uri: string): readonly (readonly [string, string | null])[] {
  const found = new Map<string, string | null>();
  const add = (file: string) => {
    if (found.has(file)) return;
    found.set(file, texts.document(file)?.getText() ?? null);
    const view = workspace.view(file);
    if (view?.kind === 'system') for (const included of view.includes) if (included !== undefined) add(included);
  };
  add(uri);
  const view = workspace.view(uri);
  if (view?.kind === 'procedure') {
    // A procedure that is gone on in is not walked, but that it is there is part of what is checked.
    for (const other of [...view.systems.keys(), ...view.continuesIn]) add(other);
  }
  return [...found];
}
