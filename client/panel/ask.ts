import * as vscode from 'vscode';
import type { Checker } from '../src/language-client.ts';

/** Asks the server something about a file. Undefined while it is being started again, and where it cannot answer. */
export async function askAbout<T>(
  checker: Checker,
  uri: vscode.Uri,
  method: string,
  params: object,
  token = never,
): Promise<T | undefined> {
  const client = await checker.running;
  const textDocument = { uri: client.code2ProtocolConverter.asUri(uri) };
  try {
    return await client.sendRequest<T>(method, { textDocument, ...params }, token);
  } catch {
    return undefined;
  }
}

/** The client takes an absent token for one more parameter of the question. */
const never = new vscode.CancellationTokenSource().token;
