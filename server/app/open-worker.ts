/**
 * `npm start -- --only ingest`: a process that takes readings in and watches the piles of the sites it holds; other
 * processes do so for other sites, and others again serve the pages.
 */
import { randomBytes, randomUUID } from 'node:crypto';
import { hostname } from 'node:os';
import { defaultSession } from '../../ingest/client/site-sessions.ts';
import { startSiteIngest } from '../../ingest/start-ingest.ts';
import { CrossSiteReadings } from '../cluster/cross-site-readings.ts';
import { RemoteWatch } from '../cluster/remote-watch.ts';
import { ViewWriter } from '../cluster/view-writer.ts';
import { Worker } from '../cluster/worker.ts';
import { ExamineJournal } from '../health/examine-journal.ts';
import { TroubleWatch } from '../health/trouble-watch.ts';
import { PileMonitor } from '../monitor/pile-monitor.ts';
import type { Delivery } from '../notify/delivery.ts';
import { openDelivery } from '../notify/open-delivery.ts';
import { Sirens } from '../notify/sirens.ts';
import { SystemNews } from '../notify/system-news.ts';
import { systemUnwell } from '../notify/system-unwell.ts';
import { Thinning } from '../retention/thinning.ts';
import { followProbes } from '../services/probes/follow-probes.ts';
import { ForgetProbes } from '../services/probes/forget-probes.ts';
import { closeInOrder } from './closing.ts';
import type { InstallationParts, OpenInstallation } from './installation.ts';
import { openSharedServers } from './open-shared-servers.ts';
import { outsideBroker } from './outside-source.ts';

export async function openWorker(parts: InstallationParts): Promise<OpenInstallation> {
  const { bands } = parts;
  const shared = await openSharedServers(parts, 'ingest');
  const { config, clock, log, readings, journal, hub, probes } = shared;
  let worker: Worker | undefined;
  const lost = (lease: Parameters<Worker['lost']>[0]) => worker?.lost(lease);
  const views = new ViewWriter({ journal, log, lost });
  // People are told of piles that others watch as well, so delivery sees them all.
  const everywhere = await RemoteWatch.open({ journal, hub, log, probesChanged: async () => {} });
  let delivery: Delivery | undefined;
  let sirens: Sirens | undefined;
  const watch = await PileMonitor.open({
    clock,
    log,
    journal,
    readings,
    probes,
    hub,
    bands,
    onAlarms: () => {
      delivery?.kick();
      sirens?.changed();
    },
    onUnkept: (unkept) => {
      void delivery?.tellUnkept(unkept);
      sirens?.changed();
    },
    shared: { looked: (one, lease, what) => views.looked(one, lease, what), lost },
  });
  const isHeld = (site: string) => worker?.sites.includes(site) ?? false;
  const lent = new CrossSiteReadings({ clock, log, readings, probes, watch, isHeld });
  const follow = followProbes({ probes, hub, log, keepIn: journal });
  const ingest = await startSiteIngest(
    {
      store: readings,
      clock,
      root: config.MQTT_ROOT,
      mappings: await journal.mappings.list(),
      ...follow,
      onCommitted(committed, atMs) {
        follow.onCommitted(committed, atMs);
        lent.tookIn(committed);
      },
      log,
    },
    outsideBroker(config),
    { unknownSite: (site) => worker?.unknownSite(site), mark: (site, text) => worker?.mark(site, text) },
  );
  const id = `${hostname()}-${process.pid}-${randomBytes(3).toString('hex')}`;
  const forgetting = new ForgetProbes({ log, journal, readings, probes, hub, root: config.MQTT_ROOT, ingest });
  worker = new Worker({ id, journal, readings, probes, watch, ingest, views, forgetting, log });
  const unwell = () => systemUnwell({ readings, journal, watch, broker: () => ingest.health() });
  delivery = openDelivery({ config, journal, clock, log, watch: everywhere, unwell });
  await worker.start();
  lent.start();
  await delivery.start();
  sirens = new Sirens({
    journal,
    clock,
    log,
    root: config.MQTT_ROOT,
    isHeldBack: (alarmId) => everywhere.isHeldBack(alarmId),
    unkept: () => watch.unkeptAlarms(),
    // Of the sites held here; the others are their workers' to tell.
    keep: (topic, text) => ingest.keep(topic, text),
  });
  sirens.start();

  // Whoever holds the commons does what one process must do for all.
  const isOurs = () => isHeld(defaultSession);
  const thinning = new Thinning({ clock, log, journal, readings, isOurs });
  const troubles = new TroubleWatch({ watch, unreadable: journal.unreadable, clock, notices: shared.notices });
  troubles.start();
  const examining = new ExamineJournal({ journal, log });
  examining.start();
  const contents = delivery;
  const news = new SystemNews({
    notices: shared.notices,
    clock,
    log,
    newId: randomUUID,
    tell: (owed) => contents.tell(owed),
    tellUnkept: (owed) => contents.tellUnkept(owed),
    brokerHealth: () => ingest.health(),
    isOurs,
  });
  news.start();

  return {
    ...shared,
    watch: everywhere,
    watching: watch,
    ingest,
    delivery,
    thinning,
    forgetting,
    sitesHeld: () => worker?.sites.filter((site) => site !== defaultSession).length ?? 0,
    close: () =>
      closeInOrder(
        examining,
        troubles,
        news,
        thinning,
        forgetting,
        lent,
        worker,
        sirens,
        delivery,
        everywhere,
        bands,
        readings,
        journal,
      ),
  };
}
