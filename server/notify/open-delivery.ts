/** Puts the delivery of warnings together from what is configured. */

import { randomUUID } from 'node:crypto';
import type { FastifyBaseLogger } from 'fastify';
import type { Clock } from '../../shared/clock.ts';
import type { Config } from '../../shared/config.ts';
import type { Message } from '../../shared/messages/message.ts';
import { type ServiceChannel, serviceChannels } from '../../shared/notification-services/services.ts';
import type { NotificationChannel } from '../../shared/notifications.ts';
import type { Journal } from '../../shared/store/journal.ts';
import type { PilePort } from '../pile/pile-port.ts';
import type { Channel, Job } from './channels/channel.ts';
import { openEmail } from './channels/email.ts';
import type { GuardedOptions } from './channels/guarded-request.ts';
import { openPush } from './channels/push.ts';
import { PushKeys } from './channels/push-keys.ts';
import { openService } from './channels/services/open-service.ts';
import { serviceSenders } from './channels/services/senders.ts';
import { openWebhook } from './channels/webhook.ts';
import { Delivery } from './delivery.ts';
import { DeliverySettings } from './delivery-settings.ts';
import { Heartbeat } from './heartbeat.ts';
import type { NotifyShare } from './notify-share.ts';
import { Receipts } from './receipts.ts';
import { ServiceSettings } from './service-settings.ts';

export interface OpenDeliveryParts {
  readonly config: Config;
  readonly journal: Journal;
  readonly clock: Clock;
  readonly log: FastifyBaseLogger;
  readonly watch: Pick<PilePort, 'all' | 'isSuppressed' | 'silenceOf'>;
  /** Whoever answers for any pile of the farm. */
  readonly handler: Pick<PilePort, 'handleAlarm'>;
  /** Absent where this process notifies of the whole farm. */
  readonly share?: NotifyShare;
  /** Why all is not well; undefined while it is. Absent where the piles are watched elsewhere: then no heartbeat is ours to give. */
  readonly unwell?: () => Promise<Message | undefined>;
  readonly machineNowMs?: (() => number) | undefined;
  /** For tests: what is trusted and who answers for names. */
  readonly guard?: Pick<GuardedOptions, 'trust' | 'lookup'> & {
    /** Where services answer in place of their own homes. */
    readonly homes?: Partial<Record<ServiceChannel, string>>;
  };
}

export function openDelivery(parts: OpenDeliveryParts): Delivery {
  const { config, journal, clock, log, watch, handler, share, unwell, machineNowMs, guard = {} } = parts;
  const settings = new DeliverySettings(journal);
  const allowed = () => settings.allowed();
  const pushKeys = new PushKeys({ journal, clock, log, newId: randomUUID });
  const channels: Partial<Record<NotificationChannel, Channel>> = {
    push: openPush({ journal, keys: pushKeys, clock, allowed, contact: contactOf(config), guard }),
    webhook: openWebhook({ allowed, secretOf: (personId) => settings.webhookSecret(personId), guard }),
  };
  const services = new ServiceSettings(journal);
  for (const channel of serviceChannels) {
    const home = guard.homes?.[channel];
    const valuesOf = (personId: string) => services.values(personId, channel);
    const keepReceipt = (receipt: string, job: Job) => opened.receipts.keep(receipt, job);
    const sender = serviceSenders[channel];
    channels[channel] = openService({ channel, sender, allowed, valuesOf, guard, home, keepReceipt });
  }
  if (config.SMTP_URL !== undefined && config.MAIL_FROM !== undefined) {
    channels.email = openEmail({ smtpUrl: config.SMTP_URL, from: config.MAIL_FROM });
  }
  const heartbeat = new Heartbeat({
    url: async () => {
      if (unwell === undefined) return undefined;
      if (config.HEARTBEAT_URL !== undefined) return { url: config.HEARTBEAT_URL, trusted: true };
      const url = await settings.heartbeatUrl();
      return url === undefined ? undefined : { url, trusted: false };
    },
    allowed,
    unwell: unwell ?? (async () => undefined),
    guard,
  });
  const opened = new Delivery({
    config,
    journal,
    clock,
    log,
    channels,
    pushKeys,
    settings,
    heartbeat,
    known: () => journal.people.list(),
    watch: () => watch,
    share,
    services,
    newId: randomUUID,
    machineNowMs,
    receipts: (people) =>
      new Receipts({
        journal,
        clock,
        log,
        watch: handler,
        services,
        people,
        allowed,
        guard,
        home: guard.homes?.pushover,
      }),
    alone: config.JOURNAL_URL === undefined,
  });
  return opened;
}

/** RFC 8292 section 2.1: where a push service may complain to. */
function contactOf({ MAIL_FROM, PUBLIC_URL }: Config): string {
  const address = MAIL_FROM === undefined ? undefined : (/<([^<>]+)>$/.exec(MAIL_FROM)?.[1] ?? MAIL_FROM);
  if (address !== undefined) return `mailto:${address}`;
  return PUBLIC_URL?.startsWith('https:') ? PUBLIC_URL : 'mailto:nobody@branhearth.invalid';
}
