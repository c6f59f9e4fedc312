/** An open page that notes how long after its publishing each reading is shown, and how many never were. */
import { get, type IncomingMessage } from 'node:http';

export interface LiveLag {
  /** A reading of that time is on its way, since then by the machine's clock. */
  published(pileId: string, position: string, atMs: number, sentMs?: number): void;
  /** Forgets what was measured so far; what is on its way stays. */
  restart(): void;
  /** Lags since the last restart, shortest first [ms], and readings not shown yet. */
  figures(): { lagsMs: number[]; waiting: number };
  close(): void;
}

interface ShownPile {
  readonly id: string;
  readonly positions: Readonly<Record<string, { readonly at?: string }>>;
}

export async function openLiveLag(pagesUrl: string): Promise<LiveLag> {
  const waiting = new Map<string, { readonly atMs: number; readonly sentMs: number }[]>();
  let lagsMs: number[] = [];
  const stream = await new Promise<IncomingMessage>((resolve, reject) => {
    get(`${pagesUrl}/api/live`, resolve).once('error', reject);
  });
  if (stream.statusCode !== 200) throw new Error(`the live stream answered ${stream.statusCode}`);
  let rest = '';
  stream.setEncoding('utf8');
  stream.on('data', (chunk: string) => {
    const nowMs = Date.now();
    const events = (rest + chunk).split('\n\n');
    rest = events.pop() ?? '';
    for (const event of events) {
      if (event.startsWith('event: pile\n')) shown(JSON.parse(event.slice(event.indexOf('data: ') + 6)), nowMs);
    }
  });

  function shown(pile: ShownPile, nowMs: number): void {
    for (const [position, { at }] of Object.entries(pile.positions)) {
      const times = waiting.get(`${pile.id}/${position}`);
      const shownMs = at === undefined ? 0 : Date.parse(at);
      while (times?.[0] !== undefined && times[0].atMs <= shownMs)
        lagsMs.push(nowMs - (times.shift()?.sentMs ?? nowMs));
    }
  }

  return {
    published(pileId, position, atMs, sentMs = atMs) {
      const key = `${pileId}/${position}`;
      const times = waiting.get(key);
      if (times) times.push({ atMs, sentMs });
      else waiting.set(key, [{ atMs, sentMs }]);
    },
    restart() {
      lagsMs = [];
    },
    figures: () => ({
      lagsMs: lagsMs.toSorted((a, b) => a - b),
      waiting: [...waiting.values()].reduce((sum, times) => sum + times.length, 0),
    }),
    close: () => stream.destroy(),
  };
}
