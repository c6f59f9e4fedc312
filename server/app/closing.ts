/**
 * The end of a run: on a signal everything is closed in order, and nobody who hangs on keeps it open. It never waits
 * longer than a service manager would before it kills.
 */
import type { FastifyBaseLogger, FastifyInstance } from 'fastify';
import { onLeftByNpm } from '../../shared/left-by-npm.ts';

/** One after the other, as given: first what lets anything in, last what keeps it. */
export async function closeInOrder(...parts: readonly ({ close(): unknown } | undefined)[]): Promise<void> {
  for (const part of parts) await part?.close();
}

/** systemd waits 90 s, a container ten: by then all has to be done. */
const patienceMs = 9_000;

export function closeOnSignals(
  app: FastifyInstance,
  installation: { close(): Promise<void> },
  log: FastifyBaseLogger,
): void {
  let closing = false;
  const close = async (signal: string) => {
    if (closing) return;
    closing = true;
    log.info(`closing after ${signal}`);
    const late = setTimeout(() => {
      log.error('not everything could be closed in time; the next start goes on from what is kept');
      process.exit(1);
    }, patienceMs);
    try {
      await app.close();
      await installation.close();
      clearTimeout(late);
      process.exit(0);
    } catch (error) {
      log.error({ err: error }, 'closing failed; the next start goes on from what is kept');
      process.exit(1);
    }
  };
  // On a terminal SIGHUP says that it was closed; elsewhere it asks for renewed certificates.
  const hangUp = process.stdout.isTTY ? (['SIGHUP'] as const) : [];
  for (const signal of ['SIGINT', 'SIGTERM', ...hangUp] as const) process.on(signal, () => void close(signal));
  onLeftByNpm(() => void close('npm'));
}
