/**
 * What every process opens that watches piles: their monitor, and whoever is notified of what it finds. The two need each
 * other, so they are joined here.
 */

import type { Ingest } from '../../ingest/ingest.ts';
import { message } from '../../shared/messages/message.ts';
import { partHealth } from '../../shared/part-health.ts';
import { startSelfChecks } from '../health/start-self-checks.ts';
import type { SystemNotices } from '../health/system-notices.ts';
import { PileMonitor } from '../monitor/pile-monitor.ts';
import type { PileMonitorParts } from '../monitor/pile-monitor-parts.ts';
import type { Delivery } from '../notify/delivery.ts';
import type { NotifyShare } from '../notify/notify-share.ts';
import { openDelivery } from '../notify/open-delivery.ts';
import type { Sirens } from '../notify/sirens.ts';
import { startAnnouncing } from '../notify/start-announcing.ts';
import { systemUnwell } from '../notify/system-unwell.ts';
import type { PilePort } from '../pile/pile-port.ts';
import { type PilePublishing, startPublishing } from '../publish/start-publishing.ts';
import { closeInOrder } from './closing.ts';
import type { InstallationParts } from './installation.ts';
import type { Services } from './open-services.ts';

export interface WatchingParts extends Pick<InstallationParts, 'bands' | 'machineNowMs' | 'guard'> {
  readonly services: Services;
  readonly notices: SystemNotices;
  /** Under which lease piles are watched. */
  readonly lease: Pick<PileMonitorParts, 'shared' | 'whole'>;
  /** Whoever answers for any pile, where others are watched elsewhere. */
  readonly everywhere?: Pick<PilePort, 'get' | 'handleAlarm'>;
  /** Of which sites people are notified here, where others are watched elsewhere. */
  readonly share?: NotifyShare;
  /** Where several processes share the farm, whether this one speaks for all. */
  readonly isOurs?: () => boolean;
}

export interface Watching {
  readonly watch: PileMonitor;
  readonly delivery: Delivery;
  /** A hub came up: piles are introduced to it anew, all or those of a site. */
  introduceAnew(site?: string): void;
  /** Notifies people and checks the server itself from now on. @returns what closes that, and leaves `watch` and `delivery` open. */
  start(ingest: Pick<Ingest, 'keep' | 'say' | 'health'>): Promise<{ close(): Promise<void> }>;
}

/** Whoever hears of alarms; filled in once they are open, which is after the monitor. */
interface Notified {
  delivery?: Delivery;
  sirens?: Sirens;
  publishing?: PilePublishing;
}

export async function openWatching(parts: WatchingParts): Promise<Watching> {
  const { services, notices, machineNowMs, guard, isOurs } = parts;
  const { config, clock, log, journal, readings } = services;
  const notified: Notified = {};
  let broker = (): ReturnType<Ingest['health']> => partHealth('down', message('health.broker.connecting'));
  const watch = await openMonitor(parts, notified);
  const all = parts.everywhere ?? watch;
  const unwell = () => systemUnwell({ readings, journal, watch, broker: () => broker() });
  const opened = openDelivery({
    config,
    journal,
    clock,
    log,
    watch,
    handler: all,
    ...(parts.share && { share: parts.share }),
    unwell,
    machineNowMs,
    ...(guard && { guard }),
  });
  notified.delivery = opened;

  return {
    watch,
    delivery: opened,
    introduceAnew: (site) => notified.publishing?.states.introduceAnew(site),
    async start(ingest) {
      broker = () => ingest.health();
      await opened.start();
      const announcing = startAnnouncing({
        config,
        journal,
        clock,
        log,
        ingest,
        notices,
        delivery: opened,
        watch,
        ...(isOurs && { isOurs }),
      });
      notified.sirens = announcing.sirens;
      const publishing = await startPublishing({ ...services, watch, ingest, everywhere: all });
      notified.publishing = publishing;
      const { examining, troubles } = startSelfChecks({ clock, log, journal, watch, notices });
      return { close: () => closeInOrder(examining, troubles, publishing, announcing.news, announcing.sirens) };
    },
  };
}

function openMonitor({ services, bands, lease }: WatchingParts, notified: Notified): Promise<PileMonitor> {
  const { clock, log, journal, readings, probes, hub } = services;
  return PileMonitor.open({
    clock,
    log,
    journal,
    readings,
    probes,
    hub,
    bands,
    ...lease,
    onAlarms(pile, change) {
      notified.delivery?.kick();
      notified.sirens?.changed();
      notified.publishing?.events.alarmsChanged(pile, change);
    },
    onShown: (pile, alarmsChanged) => notified.publishing?.states.shown(pile.id, alarmsChanged),
    onGone: (pile) => notified.publishing?.states.gone(pile),
    onUnkept(notKept) {
      void notified.delivery?.notifyUnkept(notKept);
      notified.sirens?.changed();
    },
  });
}
