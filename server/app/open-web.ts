/**
 * `npm start -- --only web`: a process that serves the pages of piles which workers watch elsewhere.
 *
 * It looks on at the broker, so that pages see readings as they come and foreign messages can be tried on a mapping; it
 * keeps no session there and stores nothing of what it hears.
 */
import { randomBytes } from 'node:crypto';
import type { Ingest } from '../../ingest/ingest.ts';
import { startIngest } from '../../ingest/start-ingest.ts';
import { commandToForget } from '../cluster/command-to-forget.ts';
import { onlookersStore } from '../cluster/no-readings-store.ts';
import { RemoteWatch } from '../cluster/remote-watch.ts';
import { unheldSites } from '../cluster/unheld-sites.ts';
import { openDelivery } from '../notify/open-delivery.ts';
import { startEvents } from '../publish/start-publishing.ts';
import { Downsampling } from '../retention/downsampling.ts';
import { followProbes } from '../services/probes/follow-probes.ts';
import { ForgetProbes } from '../services/probes/forget-probes.ts';
import { closeInOrder } from './closing.ts';
import type { InstallationParts, OpenInstallation } from './installation.ts';
import { openAirAhead } from './open-air-ahead.ts';
import { openSharedServers } from './open-shared-servers.ts';
import { outsideBroker } from './outside-source.ts';

type SharedServers = Awaited<ReturnType<typeof openSharedServers>>;

export async function openWeb(parts: InstallationParts): Promise<OpenInstallation> {
  const shared = await openSharedServers(parts, 'web');
  const { config, clock, log, readings, journal, hub, probes } = shared;
  let opened: Ingest | undefined;
  const watch = await RemoteWatch.open({
    journal,
    hub,
    log,
    follows: 'views',
    async probesChanged() {
      await probes.recallRecords(journal);
      opened?.setMappings(await journal.mappings.list());
    },
  });
  const share = { ours: () => unheldSites(journal), everyPile: () => watch.everyPile() };
  const delivery = openDelivery({ config, journal, clock, log, watch, handler: watch, share });
  const ingest = await listenIn(shared);
  opened = ingest;
  const { publishing } = shared;
  startEvents({ ...shared, everywhere: watch, ingest });
  await publishing.start();
  await delivery.start();

  // A worker thins; here the age is chosen.
  const downsampling = new Downsampling({ clock, log, journal, readings, isOurs: () => false });

  const forgetting = new ForgetProbes({
    log,
    journal,
    readings,
    probes,
    hub,
    ingest,
    root: config.MQTT_ROOT,
    askOthers: (forgotten) => commandToForget(journal, forgotten),
  });

  return {
    ...shared,
    // A worker asks for the weather; here it is chosen.
    ...openAirAhead(parts, shared, { isOurs: () => false }),
    forgetting,
    watch,
    ingest,
    delivery,
    downsampling,
    close: () =>
      closeInOrder(publishing, downsampling, forgetting, ingest, watch, delivery, parts.bands, hub, readings, journal),
  };
}

/** Hears what probes say, for pages only: it keeps no reading, so that what it takes in counts as nothing. */
async function listenIn({ config, clock, log, readings, journal, probes, hub }: SharedServers): Promise<Ingest> {
  const broker = outsideBroker(config);
  const ingest = await startIngest({
    store: onlookersStore(readings),
    clock,
    root: config.MQTT_ROOT,
    recognisesDevices: config.MQTT_DEVICES === 'yes',
    source: {
      kind: 'outside',
      ...broker,
      clientId: `${broker.clientId}-web-${randomBytes(4).toString('hex')}`,
      onlooker: true,
    },
    mappings: await journal.mappings.list(),
    ...followProbes({ probes, hub, log }),
    log,
  });
  return { ...ingest, counters: () => ({ ...ingest.counters(), acked: 0, stored: 0, duplicates: 0, batches: 0 }) };
}
