import * as crypto from 'node:crypto';
import * as vscode from 'vscode';

/** What a panel shows: `NAME.js` and `NAME.css` of `dist`, which draw into the element `main`. */
export interface Page {
  readonly name: 'preview' | 'values' | 'coverage';
  readonly title: string;
}

/** The only things that a page may load: its own script, by a number used once, and its own style. */
export function pageOptions(extensionUri: vscode.Uri): vscode.WebviewOptions {
  return { enableScripts: true, localResourceRoots: [vscode.Uri.joinPath(extensionUri, 'dist')] };
}

export function pageText(webview: vscode.Webview, extensionUri: vscode.Uri, { name, title }: Page): string {
  const address = (file: string) => webview.asWebviewUri(vscode.Uri.joinPath(extensionUri, 'dist', file));
  const nonce = crypto.randomBytes(16).toString('base64url');
  const policy = `default-src 'none'; style-src ${webview.cspSource}; script-src 'nonce-${nonce}'`;
  return `<!DOCTYPE html>
<html lang="en">
<head>
  <meta charset="utf-8">
  <meta http-equiv="Content-Security-Policy" content="${policy}">
  <meta name="viewport" content="width=device-width, initial-scale=1">
  <title>${title}</title>
  <link rel="stylesheet" href="${address(`${name}.css`)}">
</head>
<body>
  <div id="said" role="status" aria-live="polite"></div>
  <main id="${name}"></main>
  <script nonce="${nonce}" src="${address(`${name}.js`)}"></script>
</body>
</html>`;
}
