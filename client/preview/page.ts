import * as crypto from 'node:crypto';
import * as vscode from 'vscode';

/** The only things that the page may load: its own script, by a number used once, and its own style. */
export function pageOptions(extensionUri: vscode.Uri): vscode.WebviewOptions {
  return { enableScripts: true, localResourceRoots: [vscode.Uri.joinPath(extensionUri, 'dist')] };
}

export function page(webview: vscode.Webview, extensionUri: vscode.Uri): string {
  const address = (name: string) => webview.asWebviewUri(vscode.Uri.joinPath(extensionUri, 'dist', name));
  const nonce = crypto.randomBytes(16).toString('base64url');
  const policy = `default-src 'none'; style-src ${webview.cspSource}; script-src 'nonce-${nonce}'`;
  return `<!DOCTYPE html>
<html lang="en">
<head>
  <meta charset="utf-8">
  <meta http-equiv="Content-Security-Policy" content="${policy}">
  <meta name="viewport" content="width=device-width, initial-scale=1">
  <title>Procedure preview</title>
  <link rel="stylesheet" href="${address('preview.css')}">
</head>
<body>
  <div id="said" role="status" aria-live="polite"></div>
  <main id="preview"></main>
  <script nonce="${nonce}" src="${address('preview.js')}"></script>
</body>
</html>`;
}
