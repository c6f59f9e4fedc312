/** GET /api/health, open to everyone: is the server up, and can it work. */

import type { Ingest } from '../../../ingest/ingest.ts';
import type { Clock } from '../../../shared/clock.ts';
import type { Config } from '../../../shared/config.ts';
import { healthSchema } from '../../../shared/contracts/health.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import { message, verbatim } from '../../../shared/messages/message.ts';
import { type PartHealth, partHealth } from '../../../shared/part-health.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { ReadingsStore } from '../../../shared/store/readings-store.ts';
import { rowWords, type UnreadableRow } from '../../../shared/store/unreadable.ts';
import type { DiskWatch } from '../../health/disk-watch.ts';
import { pilesHealth } from '../../monitor/piles-health.ts';
import type { Delivery } from '../../notify/delivery.ts';
import type { PilePort } from '../../pile/pile-port.ts';
import type { People } from '../../services/people/open-people.ts';
import type { Api } from '../api.ts';

const mostNamed = 5;

interface HealthParts {
  readonly version: string;
  readonly clock: Clock;
  readonly config: Pick<Config, 'API_TOKEN' | 'MQTT_ROOT'>;
  readonly readings: Pick<ReadingsStore, 'check'>;
  readonly journal: Pick<Journal, 'check' | 'unreadable'>;
  readonly ingest: Ingest;
  readonly disk: Pick<DiskWatch, 'health'>;
  readonly people: People;
  readonly delivery: Delivery;
  readonly watch: PilePort;
  /** The watch of this process; absent where others watch. */
  readonly watching?: Pick<PilePort, 'all' | 'troubles'>;
  readonly sitesHeld?: () => number;
}

async function storeHealth(check: Promise<void>): Promise<PartHealth> {
  try {
    await check;
    return partHealth('ok', message('health.store.ok'));
  } catch (error) {
    return partHealth('down', verbatim(error instanceof Error ? error.message : String(error)));
  }
}

/** A journal that works, and holds rows that cannot be read. */
function withUnreadable(journal: PartHealth, rows: readonly UnreadableRow[]): PartHealth {
  if (journal.state !== 'ok' || rows.length === 0) return journal;
  const rowsText = rows.slice(0, mostNamed).map(rowWords).join('; ');
  const counts = { rowCount: rows.length, moreCount: Math.max(0, rows.length - mostNamed) };
  return partHealth('degraded', message('health.store.unreadable', { ...counts, rowsText }));
}

/** Whoever asks more often gets the same answer: looking at every part takes some milliseconds of everybody's time. */
const rememberedMs = 1_000;

/** How those parts are that have to be asked; the others know it of themselves. */
async function healthNow({ readings, journal, delivery }: Pick<HealthParts, 'readings' | 'journal' | 'delivery'>) {
  const [readingsHealth, journalHealth] = await Promise.all([
    storeHealth(readings.check()),
    storeHealth(journal.check()),
  ]);
  const deliveryHealth = await delivery.health().catch(() => partHealth('down', message('health.journal.unread')));
  return { readings: readingsHealth, journal: journalHealth, delivery: deliveryHealth };
}

export function registerHealth(api: Api, parts: HealthParts): void {
  let asked: ReturnType<typeof healthNow> | undefined;
  let freshUntilMs = 0;
  const remembered = () => {
    // While a look is under way everybody waits for that one: a store that hangs is not asked again by each.
    if (asked !== undefined && performance.now() < freshUntilMs) return asked;
    freshUntilMs = Number.POSITIVE_INFINITY;
    asked = healthNow(parts).finally(() => {
      freshUntilMs = performance.now() + rememberedMs;
    });
    return asked;
  };
  // Whoever has just changed something sees it in the next answer: who can be notified, for one.
  api.addHook('onSend', async ({ method }, { statusCode }) => {
    if (method !== 'GET' && method !== 'HEAD' && statusCode < 400) asked = undefined;
  });
  api.get(
    '/api/health',
    { config: { access: 'open' }, schema: { response: { 200: healthSchema, 503: healthSchema } } },
    async (_request, reply) => {
      const { ingest, disk, people, watching, watch } = parts;
      const { readings, journal, delivery } = await remembered();
      const broker = ingest.health();
      const piles = pilesHealth(watching ?? watch);
      const ready = [readings, journal, broker, piles].every(
        (part) => part.state === 'ok' || part.state === 'degraded',
      );
      return reply.code(ready ? 200 : 503).send({
        live: true,
        ready,
        version: parts.version,
        now: toInstant(parts.clock.nowMs()),
        speed: parts.clock.speed,
        needsToken: parts.config.API_TOKEN !== undefined,
        broker: { url: parts.ingest.url, root: parts.config.MQTT_ROOT },
        ...(parts.sitesHeld && { sitesHeld: parts.sitesHeld() }),
        parts: {
          broker,
          readings,
          journal: withUnreadable(journal, parts.journal.unreadable.list()),
          piles,
          disk: disk.health(),
          delivery,
          audit: people.trail.health(),
        },
      });
    },
  );
}
