import { afterEach, describe, expect, test, vi } from 'vitest';
import { z } from 'zod';
import { ask, NoAnswer } from '../../web/src/data/client.ts';

/** A line that takes what is asked and never answers, as `fetch` tells it. */
function swallowed(_path: string, { signal }: { signal: AbortSignal }): Promise<Response> {
  return new Promise((_, reject) => {
    const end = () => reject(new DOMException('aborted', 'AbortError'));
    if (signal.aborted) end();
    signal.addEventListener('abort', end);
  });
}

/** One that breaks off in the middle of the answer without a word. */
const cutShort = async (_path: string, { signal }: { signal: AbortSignal }): Promise<Response> =>
  new Response(
    new ReadableStream({
      start(stream) {
        stream.enqueue(new TextEncoder().encode('{"a":'));
        signal.addEventListener('abort', () => stream.error(new DOMException('aborted', 'AbortError')));
      },
    }),
  );

afterEach(() => vi.unstubAllGlobals());

describe('a question whose line', () => {
  test.each([
    ['swallows it', swallowed],
    ['stops in the middle of the answer', cutShort],
  ])('%s is not answered when the patience is over', async (_, line) => {
    vi.stubGlobal('fetch', line);
    await expect(ask(z.object({}), '/api/health', { recall: false, patienceMs: 30 })).rejects.toThrow(NoAnswer);
  });

  test('swallows it is taken back by whoever asked, who hears of no failure', async () => {
    vi.stubGlobal('fetch', swallowed);
    const asker = new AbortController();
    const asked = ask(z.object({}), '/api/health', { recall: false, signal: asker.signal });
    asker.abort();
    await expect(asked).rejects.toThrow('aborted');
  });
});
