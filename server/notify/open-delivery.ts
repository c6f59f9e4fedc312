/**
 * server/notify/open-delivery.ts: puts the delivery of warnings together from what is configured.
 */
import { randomUUID } from 'node:crypto';
import type { FastifyBaseLogger } from 'fastify';
import type { Clock } from '../../shared/clock.ts';
import type { Config } from '../../shared/config.ts';
import type { Journal } from '../../shared/store/journal.ts';
import type { TellingWay } from '../../shared/telling.ts';
import type { WatchDoor } from '../watch/watch-door.ts';
import { Delivery } from './delivery.ts';
import { openEmail } from './ways/email.ts';
import type { Way } from './ways/way.ts';

export interface OpenDeliveryParts {
  readonly config: Config;
  readonly journal: Journal;
  readonly clock: Clock;
  readonly log: FastifyBaseLogger;
  readonly watch: WatchDoor;
}

export function openDelivery({ config, journal, clock, log, watch }: OpenDeliveryParts): Delivery {
  const ways: Partial<Record<TellingWay, Way>> = {};
  if (config.SMTP_URL !== undefined && config.MAIL_FROM !== undefined) {
    ways.email = openEmail({ smtpUrl: config.SMTP_URL, from: config.MAIL_FROM });
  }
  return new Delivery({
    config,
    journal,
    clock,
    log,
    ways,
    known: () => journal.people.list(),
    watch: () => watch,
    newId: randomUUID,
    alone: config.JOURNAL_URL === undefined,
  });
}
