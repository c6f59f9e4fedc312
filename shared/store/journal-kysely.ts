/** The journal over any database Kysely speaks to. */

import { journalActs } from './journal/acts.ts';
import { journalAlarms } from './journal/alarms.ts';
import { journalTokens } from './journal/api-tokens.ts';
import { journalAttempts } from './journal/attempts.ts';
import { journalAudit } from './journal/audit.ts';
import { journalBatches } from './journal/batches.ts';
import { journalCheckpoints } from './journal/checkpoints.ts';
import { journalClaims } from './journal/claims.ts';
import { journalCommands } from './journal/commands.ts';
import { journalEntries } from './journal/entries.ts';
import { examine } from './journal/examine.ts';
import { JournalBase, type JournalDb } from './journal/journal-base.ts';
import { type JournalEngine, sqliteEngine } from './journal/journal-engine.ts';
import { journalLeases } from './journal/leases.ts';
import { journalLineage } from './journal/lineage.ts';
import { journalLots } from './journal/lots.ts';
import { journalMappings } from './journal/mappings.ts';
import { journalNotifications } from './journal/notifications.ts';
import { journalPeople } from './journal/people.ts';
import { journalPhotos } from './journal/photos.ts';
import { journalPictures } from './journal/pictures.ts';
import { journalPiles } from './journal/piles.ts';
import { journalProbeKeys } from './journal/probe-keys.ts';
import { journalProbes } from './journal/probes.ts';
import { journalLinks, journalSessions } from './journal/sessions.ts';
import { journalSettings } from './journal/settings.ts';
import { journalSites } from './journal/sites.ts';
import { journalViews } from './journal/views.ts';
import type { Journal } from './journal.ts';

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
    asks: journalCommands(base),
    hear: (heard) => engine.hear(heard),
    notifications: journalNotifications(base),
    mappings: journalMappings(base),
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
