/** GET /api/health, open to everyone: is the server up, and can it work. */
import { healthSchema } from '../../../shared/contracts/health.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import { rowWords, type UnreadableRow } from '../../../shared/store/unreadable.ts';
import type { Installation } from '../../app/installation.ts';
import { pilesHealth } from '../../monitor/piles-health.ts';
import type { Api } from '../api.ts';

const mostNamed = 5;

type PartHealth = { state: 'ok' | 'degraded' | 'down' | 'off'; detail: string };

async function partHealth(check: Promise<void>): Promise<PartHealth> {
  try {
    await check;
    return { state: 'ok', detail: 'takes and answers' };
  } catch (error) {
    return { state: 'down', detail: error instanceof Error ? error.message : String(error) };
  }
}

/** A journal that works, and holds rows that cannot be read. */
function withUnreadable(journal: PartHealth, rows: readonly UnreadableRow[]): PartHealth {
  if (journal.state !== 'ok' || rows.length === 0) return journal;
  const named = rows.slice(0, mostNamed).map(rowWords).join('; ');
  const more = rows.length > mostNamed ? ` and ${rows.length - mostNamed} more` : '';
  const count = rows.length === 1 ? 'one record' : `${rows.length} records`;
  return { state: 'degraded', detail: `takes and answers, but ${count} cannot be read: ${named}${more}` };
}

/** Whoever asks more often gets the same answer: looking at every part takes some milliseconds of everybody's time. */
const rememberedMs = 1_000;

/** How those parts are that have to be asked; the others know it of themselves. */
async function lookAt({ readings, journal, delivery }: Installation) {
  const [readingsHealth, journalHealth] = await Promise.all([
    partHealth(readings.check()),
    partHealth(journal.check()),
  ]);
  const unread = { state: 'down' as const, detail: 'the journal cannot be read' };
  const deliveryHealth = await delivery.health().catch(() => unread);
  return { readings: readingsHealth, journal: journalHealth, delivery: deliveryHealth };
}

export function registerHealth(api: Api, installation: Installation): void {
  let parts: ReturnType<typeof lookAt> | undefined;
  let freshUntilMs = 0;
  const remembered = () => {
    // While a look is under way everybody waits for that one: a store that hangs is not asked again by each.
    if (parts !== undefined && performance.now() < freshUntilMs) return parts;
    freshUntilMs = Number.POSITIVE_INFINITY;
    parts = lookAt(installation).finally(() => {
      freshUntilMs = performance.now() + rememberedMs;
    });
    return parts;
  };
  // Whoever has just changed something sees it in the next answer: who can be notified, for one.
  api.addHook('onSend', async ({ method }, { statusCode }) => {
    if (method !== 'GET' && method !== 'HEAD' && statusCode < 400) parts = undefined;
  });
  api.get(
    '/api/health',
    { config: { access: 'open' }, schema: { response: { 200: healthSchema, 503: healthSchema } } },
    async (_request, reply) => {
      const { ingest, disk, people, watching, watch } = installation;
      const { readings, journal, delivery } = await remembered();
      const broker = ingest.health();
      const piles = pilesHealth(watching ?? watch);
      const ready = [readings, journal, broker, piles].every(
        (part) => part.state === 'ok' || part.state === 'degraded',
      );
      return reply.code(ready ? 200 : 503).send({
        live: true,
        ready,
        version: installation.version,
        now: toInstant(installation.clock.nowMs()),
        speed: installation.clock.speed,
        needsToken: installation.config.API_TOKEN !== undefined,
        broker: { url: installation.ingest.url, root: installation.config.MQTT_ROOT },
        ...(installation.sitesHeld && { sitesHeld: installation.sitesHeld() }),
        parts: {
          broker,
          readings,
          journal: withUnreadable(journal, installation.journal.unreadable.list()),
          piles,
          disk: disk.health(),
          delivery,
          audit: people.trail.health(),
        },
      });
    },
  );
}
