import { describe, expect, test } from 'vitest';
import { inThreads } from '../../../server/beside/in-thread.ts';
import type { Job } from '../../../server/beside/job.ts';
import { Refusal } from '../../../server/refusal.ts';
import { CsvError } from '../../../server/services/import/csv-error.ts';
import { message, verbatim } from '../../../shared/messages/message.ts';

/** A thread that runs this on every "next, please", with `port` and `count` at hand. */
const threads = (onNext: string, mostAtOnce?: number) =>
  inThreads(
    new URL(
      `data:text/javascript,${encodeURIComponent(
        `import { parentPort as port, workerData } from 'node:worker_threads'; let count = 0;
         port.on('message', () => { count += 1; ${onNext} });`,
      )}`,
    ),
    mostAtOnce,
  );
const job = (longestMs: number): Job<number, number> => ({
  name: 'count',
  load: () => Promise.reject(new Error('only the thread loads it')),
  longestMs,
  tooLong: verbatim('Ask for less.'),
  errors: { CsvError },
});
const all = async (pieces: AsyncIterable<number>) => {
  const got: number[] = [];
  for await (const piece of pieces) got.push(piece);
  return got;
};

describe('work beside the main thread', () => {
  test('comes in pieces, each when it is asked for', async () => {
    const counting = threads('port.postMessage(count <= workerData.question ? { piece: count } : { end: true });');
    expect(await all(counting.run(job(60_000), 3))).toEqual([1, 2, 3]);
  });

  test('waits in line while as many threads as there may be are at work, of whatever job', async () => {
    let begun = 0;
    const onBegun = () => {
      begun += 1;
    };
    process.on('worker', onBegun);
    try {
      const counting = threads('port.postMessage({ piece: count });', 2);
      const [first, second, third] = [1, 2, 3].map((n) => counting.run(job(60_000), n)[Symbol.asyncIterator]());
      await first?.next();
      await second?.next();
      const waiting = third?.next();
      expect((await first?.next())?.value).toBe(2);
      expect(begun).toBe(2);
      await second?.return?.();
      expect((await waiting)?.value).toBe(1);
      expect(begun).toBe(3);
      await first?.return?.();
      await third?.return?.();
    } finally {
      process.off('worker', onBegun);
    }
  });

  test('has what is handed over to it, which is nobody else’s then; a part of shared memory is copied', async () => {
    const length = threads('port.postMessage(count === 1 ? { piece: workerData.question.length } : { end: true });');
    const long = new Uint8Array(1_000_000);
    const short = long.subarray(0, 10);
    const handing: Job<Uint8Array, number> = {
      ...job(60_000),
      load: () => Promise.reject(new Error('only the thread loads it')),
      handsOver: (bytes) => bytes,
    };
    expect(await all(length.run(handing, short))).toEqual([10]);
    expect(long).toHaveLength(1_000_000);
    expect(await all(length.run(handing, long))).toEqual([1_000_000]);
    expect(long).toHaveLength(0);
  });

  test('that never ends is ended, and the answer says what to ask for instead', async () => {
    const error = await all(threads('for (;;);').run(job(300), 3)).catch((caught: unknown) => caught);
    expect(error).toBeInstanceOf(Refusal);
    expect(error).toMatchObject({ status: 503, said: verbatim('Ask for less.') });
  });

  test('fails as it failed there: what is an answer keeps its kind, anything else is a fault of ours', async () => {
    const failing = (name: string) =>
      all(
        threads(
          `port.postMessage({ error: { name: '${name}', message: 'no heading', said: { code: 'import.no-heading', params: {} } } });`,
        ).run(job(60_000), 3),
      );
    await expect(failing('CsvError')).rejects.toMatchObject(new CsvError(message('import.no-heading')));
    await expect(failing('TypeError')).rejects.toThrowError('count: no heading');
    await expect(all(threads('process.exit(3)').run(job(60_000), 3))).rejects.toThrowError('ended with 3');
    await expect(all(threads('throw new Error("burst")').run(job(60_000), 3))).rejects.toThrowError('burst');
  });

  test('that takes more memory than it may is ended alone', async () => {
    const hoard = threads('const kept = []; for (;;) kept.push(new Array(1e6).fill(count));');
    await expect(all(hoard.run(job(60_000), 3))).rejects.toThrowError(/memory/);
  });

  test('ends when nobody waits for it any more', async () => {
    const gone = new AbortController();
    const running = all(threads('for (;;);').run(job(60_000), 3, gone.signal));
    gone.abort(new Refusal(503, message('problem.nobody-waits')));
    await expect(running).rejects.toMatchObject({ said: { code: 'problem.nobody-waits' } });
  });
});
