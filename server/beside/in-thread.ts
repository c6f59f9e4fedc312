/**
 * Jobs in threads of their own: each begins when its turn comes and is ended when a piece takes too long or nobody waits.
 */
import { availableParallelism } from 'node:os';
import { type Transferable, Worker } from 'node:worker_threads';
import pLimit from 'p-limit';
import type { Message } from '../../shared/messages/message.ts';
import { Refusal } from '../refusal.ts';
import type { Beside, Job } from './job.ts';

export interface ToThread {
  readonly name: string;
  readonly question: unknown;
}
interface ThreadError {
  readonly name: string;
  readonly message: string;
  /** Of one that is an answer. */
  readonly said?: Message;
}
export interface FromThread {
  readonly piece?: unknown;
  readonly end?: true;
  readonly error?: ThreadError;
}

/**
 * A job that needs more is ended, and the server goes on. Its young objects have more room than those of the server: what
 * collects them has helpers of the usual priority, which take the server's processor.
 */
const memory = { maxOldGenerationSizeMb: 1024, maxYoungGenerationSizeMb: 48 };

/** One processor is left to the server's own thread, where there are two. */
const usuallyAtOnce = () => Math.max(1, availableParallelism() - 1);

/**
 * @param script The compiled thread; it answers to `ToThread` with `FromThread`.
 * @param mostAtOnce Threads at once, of all jobs together; whoever comes then waits in line.
 */
export function inThreads(script: URL, mostAtOnce = usuallyAtOnce()): Beside {
  const room = pLimit(mostAtOnce);
  const enter = () =>
    new Promise<() => void>((entered) => {
      void room(() => new Promise<void>((leave) => entered(leave)));
    });
  return {
    async *run<Question, Piece>(job: Job<Question, Piece>, question: Question, signal?: AbortSignal) {
      const leave = await enter();
      try {
        yield* inThread(job, question, signal);
      } finally {
        leave();
      }
    },
  };

  async function* inThread<Question, Piece>(job: Job<Question, Piece>, question: Question, signal?: AbortSignal) {
    signal?.throwIfAborted();
    const workerData: ToThread = { name: job.name, question };
    const transferList = handedOver(job.handsOver?.(question));
    const worker = new Worker(script, { workerData, transferList, resourceLimits: memory });
    try {
      for (;;) {
        const { piece, end, error } = await nextOf(worker, job, signal);
        if (error) throw errorOf(job, error);
        if (end) return;
        yield piece as Piece;
      }
    } finally {
      await worker.terminate();
    }
  }
}

/** Only memory that is nobody else's: a short buffer is a part of one that Node shares out. */
function handedOver(bytes: Uint8Array | undefined): Transferable[] {
  if (!(bytes?.buffer instanceof ArrayBuffer)) return [];
  return bytes.byteLength === bytes.buffer.byteLength ? [bytes.buffer] : [];
}

/** What the thread answers to "the next one, please". */
function nextOf(worker: Worker, job: Job<never, unknown>, signal: AbortSignal | undefined): Promise<FromThread> {
  return new Promise((resolve, reject) => {
    const timer = setTimeout(() => give(() => reject(new Refusal(503, job.tooLong))), job.longestMs);
    const onMessage = (said: FromThread) => give(() => resolve(said));
    const onError = (error: Error) => give(() => reject(error));
    const onExit = (code: number) => give(() => reject(new Error(`the thread of a job ended with ${code}`)));
    const onAbort = () => give(() => reject(signal?.reason));
    const give = (settle: () => void) => {
      clearTimeout(timer);
      worker.off('message', onMessage).off('error', onError).off('exit', onExit);
      signal?.removeEventListener('abort', onAbort);
      settle();
    };
    worker.on('message', onMessage).on('error', onError).on('exit', onExit);
    signal?.addEventListener('abort', onAbort);
    worker.postMessage('next');
  });
}

function errorOf(job: Job<never, unknown>, { name, message, said }: ThreadError): Error {
  const Known = job.errors?.[name];
  return Known && said ? new Known(said) : new Error(`${job.name}: ${message}`);
}
