/**
 * server/routes/health.ts: GET /api/health, open to everyone: is the house up, and can it work.
 */
import { healthSchema } from '../../shared/api/health.ts';
import { toInstant } from '../../shared/api/time.ts';
import type { House } from '../house.ts';
import type { Api } from '../http/api.ts';

type PartHealth = { state: 'ok' | 'degraded' | 'down' | 'off'; detail: string };

async function partHealth(check: Promise<void>): Promise<PartHealth> {
  try {
    await check;
    return { state: 'ok', detail: 'takes and answers' };
  } catch (error) {
    return { state: 'down', detail: error instanceof Error ? error.message : String(error) };
  }
}

export function registerHealth(api: Api, house: House): void {
  api.get(
    '/api/health',
    { config: { access: 'open' }, schema: { response: { 200: healthSchema, 503: healthSchema } } },
    async (_request, reply) => {
      const [readings, journal] = await Promise.all([
        partHealth(house.readings.check()),
        partHealth(house.journal.check()),
      ]);
      const broker = house.ingest.health();
      const delivery = await house.delivery
        .health()
        .catch(() => ({ state: 'down' as const, detail: 'the journal cannot be read' }));
      const ready = [readings, journal, broker].every((part) => part.state === 'ok' || part.state === 'degraded');
      return reply.code(ready ? 200 : 503).send({
        live: true,
        ready,
        version: house.version,
        now: toInstant(house.clock.nowMs()),
        speed: house.clock.speed,
        needsToken: house.config.API_TOKEN !== undefined,
        broker: { url: house.ingest.url, root: house.config.MQTT_ROOT },
        ...(house.sitesHeld && { sitesHeld: house.sitesHeld() }),
        parts: { broker, readings, journal, disk: house.disk.health(), delivery, audit: house.people.trail.health() },
      });
    },
  );
}
