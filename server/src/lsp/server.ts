import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { type Status, statusNotification } from '../protocol/messages.ts';

/** The node entry of the language server; the transport is chosen by the arguments it is started with. */
const connection = createConnection(ProposedFeatures.all);

connection.onInitialize(() => ({ capabilities: {}, serverInfo: { name: 'faultwalk' } }));
connection.onInitialized(() => {
  const status: Status = { state: 'idle', text: 'Ready' };
  connection.sendNotification(statusNotification, status);
});
connection.listen();
