/**
 * `npm start -- --only ingest`: a process that takes readings in and watches the piles of the sites it holds; other
 * processes do so for other sites, and others again serve the pages.
 */
import { randomBytes } from 'node:crypto';
import { hostname } from 'node:os';
import { defaultSession } from '../../ingest/client/site-sessions.ts';
import type { HubListener } from '../../ingest/commit/intake.ts';
import { startSiteIngest } from '../../ingest/start-ingest.ts';
import { CrossSiteReadings } from '../cluster/cross-site-readings.ts';
import { hubBirths } from '../cluster/hub-births.ts';
import { RemoteWatch } from '../cluster/remote-watch.ts';
import { ViewWriter } from '../cluster/view-writer.ts';
import { Worker } from '../cluster/worker.ts';
import type { NotifyShare } from '../notify/notify-share.ts';
import { Downsampling } from '../retention/downsampling.ts';
import type { AirAheadKeeper } from '../services/air-ahead/keep-air-ahead.ts';
import { followProbes } from '../services/probes/follow-probes.ts';
import { ForgetProbes } from '../services/probes/forget-probes.ts';
import { closeInOrder } from './closing.ts';
import { hubListener } from './hub-listener.ts';
import type { InstallationParts, OpenInstallation } from './installation.ts';
import { openAirAhead } from './open-air-ahead.ts';
import { openSharedServers } from './open-shared-servers.ts';
import { openWatching } from './open-watching.ts';
import { outsideBroker } from './outside-source.ts';

export async function openWorker(parts: InstallationParts): Promise<OpenInstallation> {
  const services = await openSharedServers(parts, 'ingest');
  const { config, clock, log, readings, journal, hub, probes, notices } = services;
  let worker: Worker | undefined;
  const lost = (lease: Parameters<Worker['lost']>[0]) => worker?.lost(lease);
  const isHeld = (site: string) => worker?.sites.includes(site) ?? false;
  // Whoever holds the default session does what one process must do for all.
  const isOurs = () => isHeld(defaultSession);
  const views = new ViewWriter({ journal, log, lost });
  // Of piles that others watch only records are followed; how they were seen is read where it is asked for.
  const everywhere = await RemoteWatch.open({ journal, hub, log, follows: 'records', probesChanged: async () => {} });
  const watching = await openWatching({
    ...parts,
    services,
    notices,
    everywhere,
    isOurs,
    share: shareOf(everywhere, isHeld),
    lease: { shared: { looked: (one, lease, what) => views.looked(one, lease, what), lost } },
  });
  const { watch, delivery } = watching;
  const crossSite = new CrossSiteReadings({ clock, log, readings, probes, watch, isHeld });
  const { airAhead, weather } = openAirAhead(parts, services, { isOurs });
  const births = hubBirths(services);
  const hubs = hubListener({ ...services, watch: everywhere, hubCameUp: births.cameUp });
  const ingest = await ingestOf(services, { crossSite, airAhead, hubs }, () => worker);
  const forgetting = new ForgetProbes({ log, journal, readings, probes, hub, root: config.MQTT_ROOT, ingest });
  const introduce = (site: string) => watching.introduceAnew(site);
  worker = new Worker({ id: ownId(), journal, readings, probes, watch, ingest, views, forgetting, introduce, log });
  await worker.start();
  crossSite.start();
  const notifying = await watching.start(ingest);
  weather.start();
  const downsampling = new Downsampling({ clock, log, journal, readings, isOurs });

  return {
    ...services,
    airAhead,
    weather,
    watch: everywhere,
    watching: watch,
    ingest,
    delivery,
    downsampling,
    forgetting,
    sitesHeld: () => worker?.sites.filter((site) => site !== defaultSession).length ?? 0,
    close: () =>
      closeInOrder(
        weather,
        notifying,
        downsampling,
        forgetting,
        crossSite,
        births,
        worker,
        delivery,
        everywhere,
        parts.bands,
        readings,
        journal,
      ),
  };
}

/** Whoever holds the default session notifies of what is of no site. */
const shareOf = (everywhere: RemoteWatch, isHeld: (site: string) => boolean): NotifyShare => ({
  ours: async () => (site) => isHeld(site ?? defaultSession),
  everyPile: () => everywhere.everyPile(),
});

const ownId = () => `${hostname()}-${process.pid}-${randomBytes(3).toString('hex')}`;

type SharedServers = Awaited<ReturnType<typeof openSharedServers>>;

/** What comes in goes to the probe book, and to those of other sites that ask for it. */
async function ingestOf(
  { config, clock, log, readings, journal, hub, probes }: SharedServers,
  { crossSite, airAhead, hubs }: { crossSite: CrossSiteReadings; airAhead: AirAheadKeeper; hubs: HubListener },
  worker: () => Worker | undefined,
) {
  const follow = followProbes({ probes, hub, log, keepIn: journal });
  return await startSiteIngest(
    {
      store: readings,
      clock,
      root: config.MQTT_ROOT,
      recognisesDevices: config.MQTT_DEVICES === 'yes',
      mappings: await journal.mappings.list(),
      ...follow,
      onAirAhead: (site, ahead) => airAhead.take(site, ahead),
      hubs,
      onCommitted(committed, atMs) {
        follow.onCommitted(committed, atMs);
        crossSite.tookIn(committed);
      },
      log,
    },
    outsideBroker(config),
    { unknownSite: (site) => worker()?.unknownSite(site), barrier: (site, text) => worker()?.barrier(site, text) },
  );
}
