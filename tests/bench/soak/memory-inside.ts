/**
 * Loaded before a server, it gives a bench what the memory of that process is made of, at the socket BENCH_MEMORY_SOCKET:
 * `/`, or `/collected` to collect all garbage first. By itself it collects none: that is what is measured.
 */
import { readFile } from 'node:fs/promises';
import { createServer } from 'node:http';
import { constants, type PerformanceEntry, PerformanceObserver } from 'node:perf_hooks';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { isMainThread } from 'node:worker_threads';

/** In bytes. */
export interface MemoryInside {
  /** All that is resident, and what of it is neither a file nor shared (Linux). */
  readonly rss: number;
  readonly anonymous: number;
  /** Of the main thread: what V8 holds, what is in use of it, and the least in use after a full collection since asked last. */
  readonly heapTotal: number;
  readonly heapUsed: number;
  readonly heapLeast: number | null;
  readonly external: number;
  readonly arrayBuffers: number;
}

/** As perf_hooks tells of garbage collection; its types leave the detail out. */
type GcEntry = PerformanceEntry & { readonly detail?: { readonly kind: number } };

const socket = process.env.BENCH_MEMORY_SOCKET;

if (socket !== undefined && isMainThread) {
  let heapLeast: number | null = null;
  new PerformanceObserver((list) => {
    for (const entry of list.getEntries() as GcEntry[]) {
      if (entry.detail?.kind !== constants.NODE_PERFORMANCE_GC_MAJOR) continue;
      heapLeast = Math.min(heapLeast ?? Number.POSITIVE_INFINITY, process.memoryUsage().heapUsed);
    }
  }).observe({ entryTypes: ['gc'] });

  const tell = async (collected: boolean): Promise<MemoryInside> => {
    if (collected) collect();
    const { rss, heapTotal, heapUsed, external, arrayBuffers } = process.memoryUsage();
    const told = { rss, anonymous: await anonymousBytes(), heapTotal, heapUsed, heapLeast, external, arrayBuffers };
    heapLeast = null;
    return told;
  };
  createServer((request, response) => {
    void tell(request.url === '/collected').then((told) => response.end(JSON.stringify(told)));
  })
    .listen(socket)
    .unref();
}

function collect(): void {
  setFlagsFromString('--expose-gc');
  const gc: unknown = runInNewContext('gc');
  setFlagsFromString('--no-expose-gc');
  if (typeof gc === 'function') gc();
}

async function anonymousBytes(): Promise<number> {
  const status = await readFile('/proc/self/status', 'utf8').catch(() => '');
  return Number(/RssAnon:\s+(\d+) kB/.exec(status)?.[1] ?? Number.NaN) * 1_024;
}
