import { processHost } from './host.ts';
import { run } from './run.ts';

// A reader that has seen enough, such as `head`, closes its end.
process.stdout.on('error', error => {
  if ((error as NodeJS.ErrnoException).code !== 'EPIPE') throw error;
});

run(process.argv.slice(2), processHost)
  .catch((error: unknown) => {
    // Status 1 would say that something is wrong in a file.
    processHost.err(`This is a mistake in Faultwalk itself: ${error instanceof Error ? error.stack : error}\n`);
    return 2;
  })
  .then(status => {
    // Not `process.exit`, which would cut off what is still on its way to the reader.
    process.exitCode = status;
  });
