/**
 * server/worker/shared-house.ts: what every process opens that shares a farm with others: all of it lies at servers.
 *
 * Takes:  the parts of a house, and which of its work is done here.
 * Gives:  stores, probes and people as the house has them, and nothing where another process or a server does it.
 */
import { openReadings } from '../../shared/store/open-readings.ts';
import { openPostgresJournal } from '../../shared/store/postgres-journal.ts';
import { openBeside } from '../beside/open-beside.ts';
import { LiveHub } from '../live/live-hub.ts';
import type { HouseParts } from '../open-house.ts';
import { openPeople } from '../people/open-people.ts';
import { photosInJournal } from '../photos/photo-store.ts';
import { ProbeBook } from '../probes/probe-book.ts';
import { HouseNotices } from '../safe/house-notices.ts';
import { nothingHere, type Only, serversOf } from './servers.ts';
import { refuseBesideWhole } from './whole-house.ts';

export async function openSharedHouse({ config, clock, log, version, machineNowMs }: HouseParts, only: Only) {
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
    beside: openBeside(),
    people: openPeople({ journal, clock, log, config, nowMs: machineNowMs }),
    door: undefined,
    notices: new HouseNotices(),
    disk: { health: () => nothingHere },
  };
}
