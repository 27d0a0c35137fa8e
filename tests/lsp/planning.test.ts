import { afterEach, describe, expect, it } from 'vitest';
import { CancellationTokenSource } from 'vscode-languageserver/node';
import {
  type DraftAnswer,
  type DraftChoices,
  type DraftParams,
  draftChoicesRequest,
  draftRequest,
} from '../../server/src/protocol/draft.ts';
import { type NextAnswer, type NextStep, nextRequest, nextStepRequest } from '../../server/src/protocol/next.ts';
import { systemsByName } from '../support/systems.ts';
import { type Client, memory, start } from './client.ts';

const system = 'file:///project/heater.system.yaml';
const cold: Omit<DraftParams, 'textDocument'> = {
  variant: 'standard',
  symptom: 'heater stays cold',
  set: [['key', 'run']],
  when: [['H1', 'off']],
};

let client: Client;
afterEach(() => client.stop());

async function begun(others: readonly (readonly [string, string])[] = []): Promise<void> {
  const text = systemsByName.get('heater.system.yaml')!;
  client = await start({ files: memory(new Map([[system, text], ...others])) });
  client.open(system, text);
}

const choices = () =>
  client.connection.sendRequest<DraftChoices>(draftChoicesRequest, { textDocument: { uri: system } });
const draft = (complaint: Partial<DraftParams> = {}) =>
  client.connection.sendRequest<DraftAnswer | null>(draftRequest, {
    textDocument: { uri: system },
    ...cold,
    ...complaint,
  });

describe('a draft', () => {
  it('is asked for by what can be seen and set', async () => {
    await begun();
    const { variants, seen, settable } = await choices();
    expect(variants).toEqual(['standard']);
    expect(seen.find(({ name }) => name === 'H1')).toMatchObject({ sort: 'load', states: ['on', 'off'] });
    expect(settable.find(({ name }) => name === 'key')).toMatchObject({ sort: 'condition', rest: 'off' });
  });

  it('is a whole file, in which nothing is found where it is to be saved', async () => {
    await begun();
    const { drafted } = (await draft())!;
    expect(drafted?.name).toBe('heater-stays-cold.procedure.yaml');
    expect(drafted?.said).toMatch(/^\d+ faults show this complaint\. /);
    const untitled = 'untitled:/project/heater-stays-cold.procedure.yaml';
    client.open(untitled, drafted!.text);
    expect((await client.findings(untitled)).map(({ message }) => message)).toEqual([]);
  });

  it('is refused where a good machine does the same, and only there', async () => {
    await begun();
    expect((await draft({ set: [] }))?.refused).toEqual({
      because: 'good machine',
      message: 'A good machine shows `H1` at off as well',
    });
    expect((await draft({ set: [], when: [['H1', 'on']] }))?.refused).toBeUndefined();
  });

  it('is not there for a variant that the system does not have', async () => {
    await begun();
    expect(await draft({ variant: 'long' })).toBeNull();
  });

  it('can be taken back, and the next one comes all the same', async () => {
    await begun();
    const source = new CancellationTokenSource();
    const params = { textDocument: { uri: system }, ...cold };
    const taken = client.connection.sendRequest<DraftAnswer | null>(draftRequest, params, source.token);
    source.cancel();
    await expect(taken.then(answer => answer?.drafted)).rejects.toThrow('cancelled');
    expect((await draft())?.drafted).toBeDefined();
  });
});

describe('what to test next', () => {
  const uri = 'file:///project/cold.procedure.yaml';
  const text = `format: 1
procedure: cold
applies to: { heater.system.yaml: all }
starts from: [{ symptom: heater stays cold, nature: hard, set: { key: run }, when: { H1: off } }]
start: try-it
steps:
  try-it:
    set: { key: run }
    operate: Try the heater
    then:
      stays cold: { go to: maker, when: { H1: off } }
      gets warm: { go to: fine, when: { H1: on } }
endings:
  maker: { refer: Ask the maker }
  fine: { no fault: The heater gets warm }
`;
  const ask = (step: string) => client.connection.sendRequest<NextAnswer>(nextRequest, { textDocument: { uri }, step });

  it('ranks tests in words, and writes a step for one of them behind the step', async () => {
    await begun([[uri, text]]);
    client.open(uri, text);
    const { variants, tests } = await ask('try-it');
    expect(variants).toEqual(['standard']);
    expect(tests?.summary).toMatch(/^\d+ suspects at \d+ places, with key at run$/);
    const measured = tests!.tests.find(({ test }) => test.do === 'measure')!;
    expect(measured.figures).toMatch(/^[\d.]+ min · [\d.]+ bit · [\d.]+( to [\d.]+)? min in all$/);
    expect(measured.splits).toMatch(/ V \(\d+\)/);
    const written = await client.connection.sendRequest<NextStep>(nextStepRequest, {
      textDocument: { uri },
      step: 'try-it',
      variant: 'standard',
      test: measured.test,
      minutes: measured.minutes,
    });
    const lines = text.split('\n');
    expect([written.at, lines[written.at.line]]).toEqual([{ line: 12, character: 0 }, 'endings:']);
    lines.splice(12, 0, ...written.text.trimEnd().split('\n'));
    expect(lines[written.cursor.line]?.slice(0, written.cursor.character)).toBe('      within: ');
    expect(written.text).toContain('    set: { key: run }\n    measure: voltage\n');
    expect(written.text).toContain('    limits: from the circuit\n');
    client.change(uri, 2, 'endings:', `${written.text}endings:`);
    client.change(uri, 3, 'within: ', 'within: fine');
    client.change(uri, 4, 'otherwise: ', 'otherwise: maker');
    const found = (await client.findings(uri)).map(({ code }) => code);
    expect(found.filter(code => code !== 'unreachable-step')).toEqual([]);
  });

  it('says which variants there are before one is named, and that there is no such step', async () => {
    const lamp = 'file:///project/lamp-variants.system.yaml';
    const many = text.replace('heater.system.yaml', 'lamp-variants.system.yaml').replaceAll('H1', 'E1');
    await begun([
      [lamp, systemsByName.get('lamp-variants.system.yaml')!],
      [uri, many],
    ]);
    expect(await ask('try-it')).toEqual({ variants: ['plain', 'with-dimmer'] });
    const named = { textDocument: { uri }, step: 'try-it', variant: 'with-dimmer' };
    const { tests } = await client.connection.sendRequest<NextAnswer>(nextRequest, named);
    expect(tests?.variant).toBe('with-dimmer');
    expect(await ask('fly')).toBeNull();
  });
});
