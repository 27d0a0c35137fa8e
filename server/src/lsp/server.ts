import { setFlagsFromString } from 'node:v8';
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { nodeFiles } from '../disk/node-files.ts';
import { threadBench } from './prover/thread.ts';
import { serve } from './serve.ts';

// What is needed comes and goes with every edit; a heap that grows to its usual size would keep several times as much of it.
setFlagsFromString('--heap-growing-percent=40');

/** The node entry of the language server; the transport is chosen by the arguments it is started with. */
serve(createConnection(ProposedFeatures.all), nodeFiles, threadBench());
