import { grouped } from '../../shared/grouped.ts';
import type {
  AirAheadRecord,
  AlarmRecord,
  ClaimRecord,
  Journal,
  PileRecord,
  WatchChange,
} from '../../shared/store/journal.ts';
import type { PileRecords } from '../pile/open-pile.ts';
import { claimsBySite } from './claims-by-site.ts';

export interface RecordsOfPiles {
  readonly records: readonly PileRecords[];
  readonly claimsOfSite: ReadonlyMap<string, readonly ClaimRecord[]>;
}

/** What is asked of the journal is asked once for all piles, however many there are. @throws {StoreError} */
export async function readRecordsOfPiles(journal: Journal, piles: readonly PileRecord[]): Promise<RecordsOfPiles> {
  const openBatches = (await journal.batches.list()).filter(({ endedAtMs }) => endedAtMs === null);
  const batchOf = new Map(openBatches.map((batch) => [batch.pileId, batch]));
  const alarmsOf = grouped(await journal.alarms.open(), (alarm) => alarm.pileId);
  const claimsOfSite = claimsBySite(await journal.claims.list(), piles);
  const flows = await journal.lineage.flows();
  const airAhead = new Map<string, AirAheadRecord | undefined>();
  for (const site of new Set(piles.map(({ siteId }) => siteId))) airAhead.set(site, await journal.airAhead.get(site));
  const records = piles.map((pile): PileRecords => {
    const hasBadBatch = journal.unreadable.ofPile(pile.id).some(({ table }) => table === 'batch');
    return {
      pile,
      batch: batchOf.get(pile.id) ?? (hasBadBatch ? undefined : null),
      openAlarms: alarmsOf.get(pile.id) ?? [],
      claims: claimsOfSite.get(pile.siteId) ?? [],
      flows,
      airAhead: airAhead.get(pile.siteId),
    };
  });
  return { records, claimsOfSite };
}

/** @param owed What the journal could not take yet of this pile. @throws {StoreError} */
export async function readPileRecords(
  journal: Journal,
  pile: PileRecord,
  owed: WatchChange | undefined,
): Promise<PileRecords> {
  const claims = await journal.claims.list(pile.siteId);
  const openAlarms = (await journal.alarms.open()).filter((alarm) => alarm.pileId === pile.id);
  return {
    pile,
    batch: undefined,
    openAlarms: owed ? newestAlarms(openAlarms, owed) : openAlarms,
    claims,
    flows: await journal.lineage.flows(),
    airAhead: await journal.airAhead.get(pile.siteId),
  };
}

/** Open alarms as the journal has them, and over them what it could not take yet. */
function newestAlarms(kept: readonly AlarmRecord[], { alarms }: WatchChange): AlarmRecord[] {
  const owed = new Set(alarms.map(({ id }) => id));
  return [...kept.filter(({ id }) => !owed.has(id)), ...alarms.filter(({ closedAtMs }) => closedAtMs === null)];
}
