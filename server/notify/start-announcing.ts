/** Sirens and lamps by MQTT, and trouble of the server, begun together. */
import { randomUUID } from 'node:crypto';
import type { FastifyBaseLogger } from 'fastify';
import type { Ingest } from '../../ingest/ingest.ts';
import type { Clock } from '../../shared/clock.ts';
import type { Config } from '../../shared/config.ts';
import type { Journal } from '../../shared/store/journal.ts';
import type { SystemNotices } from '../health/system-notices.ts';
import type { PileMonitor } from '../monitor/pile-monitor.ts';
import type { Delivery } from './delivery.ts';
import { Sirens } from './sirens.ts';
import { SystemNews } from './system-news.ts';

export interface AnnouncingParts {
  readonly config: Pick<Config, 'MQTT_ROOT'>;
  readonly journal: Journal;
  readonly clock: Clock;
  readonly log: FastifyBaseLogger;
  readonly watch: Pick<PileMonitor, 'isSuppressed' | 'unkeptAlarms'>;
  readonly ingest: Pick<Ingest, 'keep' | 'health'>;
  readonly notices: SystemNotices;
  readonly delivery: Delivery;
  /** Where several processes share the farm, whether this one tells of the server itself; absent where this is the only one. */
  readonly isOurs?: () => boolean;
}

export function startAnnouncing(parts: AnnouncingParts): { sirens: Sirens; news: SystemNews } {
  const { config, journal, clock, log, watch, ingest, notices, delivery, isOurs } = parts;
  const sirens = new Sirens({
    journal,
    clock,
    log,
    root: config.MQTT_ROOT,
    isSuppressed: (id) => watch.isSuppressed(id),
    unkept: () => watch.unkeptAlarms(),
    // Of the sites held here; where others hold some, those are theirs to announce.
    keep: (topic, text) => ingest.keep(topic, text),
  });
  const news = new SystemNews({
    notices,
    clock,
    log,
    newId: randomUUID,
    notify: (owed) => delivery.notify(owed),
    notifyUnkept: (owed) => delivery.notifyUnkept(owed),
    brokerHealth: () => ingest.health(),
    ...(isOurs && { isOurs }),
  });
  sirens.start();
  news.start();
  return { sirens, news };
}
