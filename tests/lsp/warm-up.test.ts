import { expect, it } from 'vitest';
import { Workspace } from '../../server/src/analysis/workspace.ts';
import { warmUp } from '../../server/src/lsp/warm-up.ts';
import { warmUpMachine } from '../../server/src/lsp/warm-up-machine.ts';
import { checkWithoutProof } from '../../server/src/rules/run.ts';

it('warms up on a machine that is understood and solved to the end', () => {
  const workspace = new Workspace();
  for (const [uri, text] of warmUpMachine(0)) workspace.set(uri, text);
  const views = workspace.uris().flatMap(uri => workspace.view(uri) ?? []);
  const severe = views.flatMap(view => checkWithoutProof(view)).filter(({ severity }) => severity === 'error');
  expect(severe.map(({ rule, message }) => `${rule}: ${message}`)).toEqual([]);
  const procedure = views.find(({ kind }) => kind === 'procedure');
  if (procedure?.kind !== 'procedure') throw new Error('there is no procedure');
  const [one] = procedure.cases;
  const readings = [...procedure.procedure.steps.values()].flatMap(({ id, data: { action } }) => {
    const [now] = one!.flow.during(id);
    return action.verb === 'measure' && now ? [one!.circuit.read(action, procedure.procedure.meter, now).state] : [];
  });
  expect(readings).toEqual(['number', 'number', 'number', 'number']);
});

it('gives way to work', async () => {
  let asked = 0;
  await warmUp(() => ++asked > 2);
  expect(asked).toBe(3);
});
