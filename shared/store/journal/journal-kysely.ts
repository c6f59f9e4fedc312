/** The journal over any database Kysely speaks to. */

import type { Journal } from '../journal.ts';
import { journalActs } from './acts.ts';
import { journalAirAhead } from './air-ahead.ts';
import { journalAlarms } from './alarms.ts';
import { journalTokens } from './api-tokens.ts';
import { journalAttempts } from './attempts.ts';
import { journalAudit } from './audit.ts';
import { journalBatches } from './batches.ts';
import { journalCheckpoints } from './checkpoints.ts';
import { journalClaims } from './claims.ts';
import { journalCommands } from './commands.ts';
import { journalEntries } from './entries.ts';
import { examine } from './examine.ts';
import { JournalBase, type JournalDb } from './journal-base.ts';
import { type JournalEngine, sqliteEngine } from './journal-engine.ts';
import { journalLeases } from './leases.ts';
import { journalLineage } from './lineage.ts';
import { journalLots } from './lots.ts';
import { journalMappings } from './mappings.ts';
import { journalNotifications } from './notifications.ts';
import { journalPeople } from './people.ts';
import { journalPhotos } from './photos.ts';
import { journalPictures } from './pictures.ts';
import { journalPiles } from './piles.ts';
import { journalProbeKeys } from './probe-keys.ts';
import { journalProbes } from './probes.ts';
import { journalLinks, journalSessions } from './sessions.ts';
import { journalSettings } from './settings.ts';
import { journalSites } from './sites.ts';
import { journalViews } from './views.ts';

export function journalOver(db: JournalDb, engine: JournalEngine = sqliteEngine, file?: string): Journal {
  const base = new JournalBase(db, engine, file);
  return {
    sites: journalSites(base),
    piles: journalPiles(base),
    batches: journalBatches(base),
    probes: journalProbes(base),
    claims: journalClaims(base),
    acts: journalActs(base),
    entries: journalEntries(base),
    photos: journalPhotos(base),
    pictures: journalPictures(base),
    lots: journalLots(base),
    lineage: journalLineage(base),
    alarms: journalAlarms(base),
    watch: journalCheckpoints(base),
    leases: journalLeases(base),
    views: journalViews(base),
    commands: journalCommands(base),
    hear: (heard) => engine.hear(heard),
    notifications: journalNotifications(base),
    mappings: journalMappings(base),
    airAhead: journalAirAhead(base),
    probeKeys: journalProbeKeys(base),
    settings: journalSettings(base),
    people: journalPeople(base),
    sessions: journalSessions(base),
    links: journalLinks(base),
    tokens: journalTokens(base),
    attempts: journalAttempts(base),
    audit: journalAudit(base),
    unreadable: base.unreadable,
    examine: (rest) => examine(base, rest),
    check: () => base.check(),
    close: () => db.destroy(),
  };
}
