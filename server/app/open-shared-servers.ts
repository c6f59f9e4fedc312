/** What every process opens that shares a farm with others: all of it is kept at servers. */

import { openPostgresJournal } from '../../shared/store/journal/postgres-journal.ts';
import { openReadings } from '../../shared/store/open/open-readings.ts';
import { nothingHere, type Only, serversOf } from '../cluster/servers.ts';
import { refuseBesideWhole } from '../cluster/single-process.ts';
import { SystemNotices } from '../health/system-notices.ts';
import { photosInJournal } from '../services/photos/photo-store.ts';
import type { InstallationParts } from './installation.ts';
import { openServices } from './open-services.ts';

export async function openSharedServers(parts: InstallationParts, only: Only) {
  const { journalUrl } = serversOf(parts.config, only);
  // A worker opens the series of each site when it takes it.
  const readings = await openReadings(parts.config, only === 'ingest' ? 'none' : 'all');
  const journal = await openPostgresJournal(journalUrl);
  await refuseBesideWhole(journal);
  const services = await openServices(
    parts,
    { readings, journal, photos: photosInJournal(journal) },
    only === 'ingest' ? [] : undefined,
  );
  return {
    ...services,
    authPolicy: undefined,
    notices: new SystemNotices(),
    disk: { health: () => nothingHere },
  };
}
