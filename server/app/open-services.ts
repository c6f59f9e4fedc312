import { versionSetting } from '../../shared/store/journal/migrate.ts';
import type { Journal } from '../../shared/store/journal.ts';
import type { ReadingsStore } from '../../shared/store/readings-store.ts';
import { openBeside } from '../beside/open-beside.ts';
import { EntriesHeard } from '../publish/entries-heard.ts';
import { PublishingChoice } from '../publish/publishing-choice.ts';
import { LiveHub } from '../services/live/live-hub.ts';
import { openPeople } from '../services/people/open-people.ts';
import type { PhotoStore } from '../services/photos/photo-store.ts';
import { ProbeBook } from '../services/probes/probe-book.ts';
import type { InstallationParts } from './installation.ts';

export interface Stores {
  readonly readings: ReadingsStore;
  readonly journal: Journal;
  readonly photos: PhotoStore;
}

export type Services = Awaited<ReturnType<typeof openServices>>;

/**
 * What every process opens over its stores, wherever those are.
 *
 * @param sites Whose probes are known from the start; all unless given.
 */
export async function openServices(parts: InstallationParts, stores: Stores, sites?: readonly string[]) {
  const { config, clock, log, version, machineNowMs } = parts;
  const { readings, photos } = stores;
  const entriesHeard = new EntriesHeard();
  const journal = entriesHeard.over(stores.journal);
  await noteVersion(journal, version);
  return {
    config,
    clock,
    log,
    version,
    readings,
    journal,
    photos,
    entriesHeard,
    publishing: new PublishingChoice({ journal, log }),
    hub: new LiveHub(),
    probes: await ProbeBook.open({ lasts: () => readings.lasts(sites) }, journal, config.UNCLAIMED_PROBES),
    beside: openBeside(new URL('./beside-worker.js', import.meta.url)),
    people: openPeople({ journal, clock, log, config, nowMs: machineNowMs }),
  };
}

/** For an older program that finds tables it does not know: it can say whose they are. */
async function noteVersion({ settings }: Journal, version: string): Promise<void> {
  try {
    if ((await settings.get(versionSetting)) !== version) await settings.set(versionSetting, version);
  } catch {
    // A journal that takes nothing now says so where it matters.
  }
}
