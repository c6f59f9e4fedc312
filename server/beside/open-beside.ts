import { inThreads } from './in-thread.ts';
import type { Beside } from './job.ts';

/** The same work at once and on this thread: sources that were not compiled cannot start one. */
const besideAtOnce: Beside = {
  async *run(job, question) {
    yield* (await job.load()).run(question);
  },
};

/** @param script The compiled thread that finds jobs by their names. */
export function openBeside(script: URL): Beside {
  return import.meta.url.endsWith('.js') ? inThreads(script) : besideAtOnce;
}
