/**
 * The thread of one job: it works out the next piece whenever it is asked for one.
 */
import { setPriority } from 'node:os';
import { parentPort, workerData } from 'node:worker_threads';
import type { FromThread, ToThread } from '../beside/in-thread.ts';
import { jobs } from './jobs.ts';

/** Below everything that somebody waits for: on Linux it holds for the thread that asks, elsewhere it would for the whole server. */
const lowPriority = 19;
if (process.platform === 'linux') setPriority(lowPriority);

const { name, question } = workerData as ToThread;
const job = jobs.find((one) => one.name === name);

async function* pieces(): AsyncGenerator<unknown> {
  if (!job) throw new Error(`no such job: ${name}`);
  yield* (await job.load()).run(question as never);
}

const iterator = pieces();
parentPort?.on('message', () => {
  iterator.next().then(
    ({ value, done }) => answer(done ? { end: true } : { piece: value }),
    (error) =>
      answer({
        error: {
          name: error instanceof Error ? error.name : 'Error',
          message: String(error?.message ?? error),
          said: error?.said,
        },
      }),
  );
});

function answer(said: FromThread): void {
  parentPort?.postMessage(said);
}
