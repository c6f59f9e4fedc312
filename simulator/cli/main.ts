/**
 * The command `npm run simulate`. Exit code 0 when the run was finished or stopped by hand, 1 with one line on standard error
 * otherwise.
 */

import { ConfigError } from '../../shared/errors.ts';
import { onLeftByNpm } from '../../shared/left-by-npm.ts';
import { scenarioJsonSchema } from '../scenario/scenario-schema.ts';
import { help } from './help.ts';
import { readOptions } from './options.ts';
import { runCommand } from './run-command.ts';

async function main(): Promise<void> {
  const options = readOptions(process.argv.slice(2));
  if (options.command === 'help') process.stdout.write(help);
  else if (options.command === 'schema') process.stdout.write(`${JSON.stringify(scenarioJsonSchema(), null, 2)}\n`);
  else if (options.command === 'run' || options.command === 'replay') await runCommand(options, stopSignal());
}

/** Ends the run kindly on the first Ctrl-C; a second one ends the process as usual. */
function stopSignal(): AbortSignal {
  const stop = new AbortController();
  for (const name of ['SIGINT', 'SIGTERM'] as const) process.once(name, () => stop.abort());
  onLeftByNpm(() => stop.abort());
  return stop.signal;
}

main().catch((error: unknown) => {
  // Whoever read our rows has read enough (`... | head`).
  if (error instanceof Error && 'code' in error && error.code === 'EPIPE') return;
  const expected =
    error instanceof ConfigError ||
    error instanceof RangeError ||
    (error instanceof Error && /^Cannot /.test(error.message));
  process.stderr.write(`${expected ? (error as Error).message : error instanceof Error ? error.stack : error}\n`);
  process.exitCode = 1;
});
