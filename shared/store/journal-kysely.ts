/**
 * shared/store/journal-kysely.ts: the journal over any database Kysely speaks to.
 *
 * Takes:  an open, migrated Kysely; sqlite-journal.ts makes the embedded one.
 * Gives:  the contract of journal.ts, one small file per group under journal/.
 */

import { journalActs } from './journal/acts.ts';
import { journalAlarms } from './journal/alarms.ts';
import { journalBatches } from './journal/batches.ts';
import { journalClaims } from './journal/claims.ts';
import { JournalBase, type JournalDb } from './journal/journal-base.ts';
import { journalMappings } from './journal/mappings.ts';
import { journalPiles } from './journal/piles.ts';
import { journalProbes } from './journal/probes.ts';
import { journalSettings } from './journal/settings.ts';
import { journalSites } from './journal/sites.ts';
import { journalWatch } from './journal/watch.ts';
import type { Journal } from './journal.ts';

export function journalOver(db: JournalDb): Journal {
  const base = new JournalBase(db);
  return {
    sites: journalSites(base),
    piles: journalPiles(base),
    batches: journalBatches(base),
    probes: journalProbes(base),
    claims: journalClaims(base),
    acts: journalActs(base),
    alarms: journalAlarms(base),
    watch: journalWatch(base),
    mappings: journalMappings(base),
    settings: journalSettings(base),
    check: () => base.check(),
    close: () => db.destroy(),
  };
}
