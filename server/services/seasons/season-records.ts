/** What is read once for all batches of a question. */
import { readFamily } from '../lineage/family.ts';
import { knownBatches } from './choose.ts';
import type { SeasonParts, SeasonRecords } from './compared-batches.ts';
import { readSeasonNames } from './season-names.ts';

export async function readSeasonRecords({ journal }: SeasonParts): Promise<SeasonRecords> {
  const [family, sites, names, claims] = await Promise.all([
    readFamily(journal),
    journal.sites.list(),
    readSeasonNames(journal),
    journal.claims.list(),
  ]);
  return { family, known: knownBatches(family, sites), names, claims };
}
