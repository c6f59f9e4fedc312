/** What every process opens that shares a farm with others: all of it lies at servers. */
import { openReadings } from '../../shared/store/open-readings.ts';
import { openPostgresJournal } from '../../shared/store/postgres-journal.ts';
import { openBeside } from '../beside/open-beside.ts';
import { nothingHere, type Only, serversOf } from '../cluster/servers.ts';
import { refuseBesideWhole } from '../cluster/single-process.ts';
import { SystemNotices } from '../health/system-notices.ts';
import { LiveHub } from '../services/live/live-hub.ts';
import { openPeople } from '../services/people/open-people.ts';
import { photosInJournal } from '../services/photos/photo-store.ts';
import { ProbeBook } from '../services/probes/probe-book.ts';
import type { InstallationParts } from './installation.ts';

export async function openSharedServers({ config, clock, log, version, machineNowMs }: InstallationParts, only: Only) {
  const { journalUrl } = serversOf(config, only);
  const readings = await openReadings(config);
  const journal = await openPostgresJournal(journalUrl);
  await refuseBesideWhole(journal);
  return {
    config,
    clock,
    log,
    version,
    readings,
    journal,
    hub: new LiveHub(),
    probes: await ProbeBook.open(readings, journal, config.UNCLAIMED_PROBES),
    photos: photosInJournal(journal),
    beside: openBeside(new URL('./beside-worker.js', import.meta.url)),
    people: openPeople({ journal, clock, log, config, nowMs: machineNowMs }),
    authPolicy: undefined,
    notices: new SystemNotices(),
    disk: { health: () => nothingHere },
  };
}
