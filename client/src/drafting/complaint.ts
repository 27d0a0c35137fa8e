import * as vscode from 'vscode';
import type { LanguageClient } from 'vscode-languageclient/node';
import {
  type DraftAnswer,
  type DraftChoice,
  type DraftChoices,
  type DraftParams,
  draftChoicesRequest,
} from '../../../server/src/protocol/draft.ts';

type Complaint = Omit<DraftParams, 'textDocument'>;
type TextDocument = DraftParams['textDocument'];
type Pair = [name: string, state: string];

/** Asks for variant, symptom, what is seen and in which condition, one after the other; undefined where any of it is dismissed. */
export async function askForComplaint(
  client: LanguageClient,
  textDocument: TextDocument,
): Promise<Complaint | undefined> {
  const first = await choicesFor(client, textDocument);
  if (!first) return undefined;
  const variant = await askForVariant(first.variants);
  if (variant === undefined) return undefined;
  const choices = variant === first.variants[0] ? first : await choicesFor(client, textDocument, variant);
  if (!choices) return undefined;
  if (choices.seen.length === 0) {
    await vscode.window.showInformationMessage(
      'This system has nothing that could be seen to go wrong: no load, no output, no scan data with states',
    );
    return undefined;
  }
  const symptom = await vscode.window.showInputBox({
    title: 'What does somebody complain of?',
    placeHolder: 'heater stays cold',
    ignoreFocusOut: true,
    validateInput: text => (text.trim() === '' ? 'Write it as the customer says it' : undefined),
  });
  if (symptom === undefined) return undefined;
  const when = await askForPairs(choices.seen, [], {
    title: 'What does the machine then do?',
    done: 'That is all that is seen',
    least: 1,
  });
  const set = when && (await askForSet(choices.settable, []));
  return set && { variant, symptom: symptom.trim(), set, when };
}

/** Says why there is no draft, and asks anew in which condition it is seen where that may help. */
export async function askForConditions(
  client: LanguageClient,
  textDocument: TextDocument,
  complaint: Complaint,
  { because, message }: NonNullable<DraftAnswer['refused']>,
): Promise<Complaint | undefined> {
  if (because === 'no fault') {
    await vscode.window.showWarningMessage(`${message}; look at the parts in the system file, or at what is set`);
    return undefined;
  }
  const choices = await choicesFor(client, textDocument, complaint.variant);
  const set = choices && (await askForSet(choices.settable, complaint.set, message.replaceAll('`', '')));
  return set && { ...complaint, set };
}

async function choicesFor(client: LanguageClient, textDocument: TextDocument, variant?: string) {
  const found = await client.sendRequest<DraftChoices | null>(draftChoicesRequest, { textDocument, variant });
  return found ?? undefined;
}

export async function askForVariant(variants: readonly string[]): Promise<string | undefined> {
  if (variants.length === 1) return variants[0];
  return vscode.window.showQuickPick(variants, { title: 'Which variant of the machine?', ignoreFocusOut: true });
}

function askForSet(settable: readonly DraftChoice[], known: readonly Pair[], why?: string) {
  return askForPairs(settable, known, {
    title: why ?? 'In which condition is it seen?',
    placeHolder: why && 'In which condition is it seen? Say more of it',
    done: 'Go on',
    least: 0,
  });
}

interface Asked {
  title: string;
  placeHolder?: string;
  done: string;
  least: number;
}

interface Item extends vscode.QuickPickItem {
  choice?: DraftChoice;
}

/** Names and their states, as many as somebody likes; whoever chooses a name again changes its state. */
async function askForPairs(
  choices: readonly DraftChoice[],
  known: readonly Pair[],
  { title, placeHolder, done, least }: Asked,
): Promise<Pair[] | undefined> {
  const pairs = new Map<string, string>(known);
  for (;;) {
    const items: Item[] = choices.map(choice => ({
      label: choice.name,
      description: [
        choice.title,
        pairs.has(choice.name) ? `→ ${pairs.get(choice.name)}` : choice.rest && `at rest ${choice.rest}`,
      ]
        .filter(Boolean)
        .join(' · '),
      choice,
    }));
    const soFar = [...pairs].map(([name, state]) => `${name}: ${state}`).join(', ');
    const end: Item = { label: `$(check) ${done}`, description: soFar || 'everything at rest', alwaysShow: true };
    const picked = await vscode.window.showQuickPick(pairs.size >= least ? [end, ...items] : items, {
      title,
      placeHolder: placeHolder ?? soFar,
      matchOnDescription: true,
      ignoreFocusOut: true,
    });
    if (picked === undefined) return undefined;
    if (picked.choice === undefined) return [...pairs];
    const state = await askForState(picked.choice);
    if (state === undefined) continue;
    if (state === picked.choice.rest) pairs.delete(picked.choice.name);
    else pairs.set(picked.choice.name, state);
  }
}

async function askForState({ name, title, states, rest }: DraftChoice): Promise<string | undefined> {
  const named = title ? `${name}, ${title}` : name;
  if (states.length > 0) return vscode.window.showQuickPick(states, { title: named, ignoreFocusOut: true });
  return vscode.window.showInputBox({
    title: named,
    value: rest,
    prompt: 'A number with its unit',
    ignoreFocusOut: true,
  });
}
