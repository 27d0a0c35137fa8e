import * as vscode from 'vscode';
import type { LanguageClient } from 'vscode-languageclient/node';

/** Sends a request that may take long, with a notification by which it can be cancelled; undefined where it was. */
export async function withProgress<R>(
  client: LanguageClient,
  title: string,
  request: string,
  params: object,
): Promise<R | undefined> {
  const options = { location: vscode.ProgressLocation.Notification, title, cancellable: true };
  return vscode.window.withProgress(options, async (_, token) => {
    try {
      return await client.sendRequest<R>(request, params, token);
    } catch (error) {
      if (token.isCancellationRequested) return undefined;
      throw error;
    }
  });
}
