/**
 * server/open-web.ts: `npm start -- --only web`: a process that serves the pages of piles which workers watch elsewhere.
 *
 * It looks on at the broker, so that pages see readings as they come and foreign messages can be tried on a mapping; it
 * keeps no session there and stores nothing of what it hears.
 */
import { randomBytes } from 'node:crypto';
import { type Ingest, startIngest } from '../ingest/start-ingest.ts';
import { openReadings } from '../shared/store/open-readings.ts';
import { openPostgresJournal } from '../shared/store/postgres-journal.ts';
import { Thinning } from './keeping/thinning.ts';
import { LiveHub } from './live/live-hub.ts';
import { openDelivery } from './notify/open-delivery.ts';
import type { HouseParts, OpenHouse } from './open-house.ts';
import { outsideBroker } from './outside-source.ts';
import { openPeople } from './people/open-people.ts';
import { photosInJournal } from './photos/photo-store.ts';
import { ProbeBook, probeView } from './probes/probe-book.ts';
import { HouseNotices } from './safe/house-notices.ts';
import { RemoteWatch } from './watch/remote-watch.ts';
import { onlookersStore } from './worker/onlookers-store.ts';
import { nothingHere, serversOf } from './worker/servers.ts';
import { refuseBesideWhole } from './worker/whole-house.ts';

export async function openWeb(parts: HouseParts): Promise<OpenHouse> {
  const { config, clock, log, version, bands, machineNowMs } = parts;
  const { journalUrl } = serversOf(config, 'web');
  const readings = await openReadings(config);
  const journal = await openPostgresJournal(journalUrl);
  await refuseBesideWhole(journal);
  const hub = new LiveHub();
  const probes = await ProbeBook.open(readings, journal);
  let opened: Ingest | undefined;
  const watch = await RemoteWatch.open({
    journal,
    hub,
    log,
    async probesChanged() {
      await probes.recallRecords(journal);
      opened?.setMappings(await journal.mappings.list());
    },
  });
  const delivery = openDelivery({ config, journal, clock, log, watch });
  const broker = outsideBroker(config);
  const ingest = await startIngest({
    store: onlookersStore(readings),
    clock,
    root: config.MQTT_ROOT,
    source: {
      kind: 'outside',
      ...broker,
      clientId: `${broker.clientId}-web-${randomBytes(4).toString('hex')}`,
      onlooker: true,
    },
    mappings: await journal.mappings.list(),
    calibrate: (site, probe, quantity, value) => probes.calibrate(site, probe, quantity, value),
    onCommitted(heard) {
      for (const reading of heard) {
        const known = probes.record(reading);
        if (hub.listenerCount > 0) hub.publishLater('probe', `${known.site}/${known.probe}`, () => probeView(known));
      }
    },
    onStatus(site, probe, online) {
      const known = probes.of(site, probe);
      known.online = online;
      hub.publish('probe', `${site}/${probe}`, probeView(known));
    },
    log,
  });
  opened = ingest;
  await delivery.start();

  // A worker thins; here the age is chosen.
  const thinning = new Thinning({ clock, log, journal, readings, isOurs: () => false });

  return {
    config,
    clock,
    log,
    version,
    readings,
    journal,
    photos: photosInJournal(journal),
    probes,
    watch,
    ingest: {
      ...ingest,
      // Workers keep readings; what is only looked at counts as nothing.
      counters: () => ({ ...ingest.counters(), acked: 0, stored: 0, duplicates: 0, batches: 0 }),
    },
    door: undefined,
    hub,
    delivery,
    thinning,
    notices: new HouseNotices(),
    disk: { health: () => nothingHere },
    people: openPeople({ journal, clock, log, config, ...(machineNowMs && { nowMs: machineNowMs }) }),
    async close() {
      await thinning.close();
      await ingest.close();
      await watch.close();
      await delivery.close();
      await bands.close();
      hub.close();
      await readings.close();
      await journal.close();
    },
  };
}
