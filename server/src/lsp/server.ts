import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { nodeFiles } from '../disk/node-files.ts';
import { serve } from './serve.ts';

/** The node entry of the language server; the transport is chosen by the arguments it is started with. */
serve(createConnection(ProposedFeatures.all), nodeFiles);
