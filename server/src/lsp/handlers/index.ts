import type { Server } from '../server-context.ts';
import { registerCompletion } from './completion.ts';
import { registerCoverage } from './coverage.ts';
import { registerDraft } from './draft.ts';
import { registerEditing } from './editing.ts';
import { registerHints } from './hints.ts';
import { registerNavigation } from './navigation.ts';
import { registerNext } from './next.ts';
import { registerPreview } from './preview.ts';
import { registerStructure } from './structure.ts';
import { registerValues } from './values.ts';

/** Every request that the server answers; requests of our own are added here, too. */
export function registerHandlers(server: Server): void {
  registerCompletion(server);
  registerCoverage(server);
  registerDraft(server);
  registerEditing(server);
  registerHints(server);
  registerNavigation(server);
  registerNext(server);
  registerPreview(server);
  registerStructure(server);
  registerValues(server);
}
