/** Who is signed in, and the links by which people come in. */
import type { LinkRecord, PeopleJournal, SessionRecord } from '../people-journal.ts';
import { endAllSessions, endSessions, replaceSession } from './held.ts';
import type { JournalBase } from './journal-base.ts';
import { mayStillInvite } from './link-maker.ts';
import { personFromRow } from './person-row.ts';
import type { JournalTables } from './tables.ts';

export function journalSessions(base: JournalBase): PeopleJournal['sessions'] {
  return {
    add: (session, replaces) =>
      base.write(async (transaction) => {
        if (replaces !== undefined) await replaceSession(transaction, replaces, session);
        await transaction
          .insertInto('session')
          .values({
            digest: session.digest,
            id: session.id,
            person_id: session.personId,
            made_at_ms: session.madeAtMs,
            seen_at_ms: session.seenAtMs,
            ends_at_ms: session.endsAtMs,
            address: session.address,
            agent: session.agent,
          })
          .execute();
      }),

    find: (digest) =>
      base.read(async (db) => {
        const session = await db.selectFrom('session').selectAll().where('digest', '=', digest).executeTakeFirst();
        if (!session) return undefined;
        const person = await db
          .selectFrom('person')
          .selectAll()
          .where('id', '=', session.person_id)
          .where('removed_at_ms', 'is', null)
          .executeTakeFirst();
        return person && { session: sessionFromRow(session), person: personFromRow(person) };
      }),

    list: (personId) =>
      base.read(async (db) => {
        let rows = db.selectFrom('session').selectAll();
        if (personId !== undefined) rows = rows.where('person_id', '=', personId);
        return (await rows.orderBy('made_at_ms', 'desc').orderBy('id').execute()).map(sessionFromRow);
      }),

    seen: (digest, seenAtMs) =>
      base.write(async (transaction) => {
        await transaction
          .updateTable('session')
          .set({ seen_at_ms: seenAtMs })
          .where('digest', '=', digest)
          .where('seen_at_ms', '<', seenAtMs)
          .execute();
      }),

    end: (which) =>
      base.write(async (transaction) => {
        if ('digest' in which) return endSessions(transaction, { digest: which.digest });
        const { personId, id, exceptDigest } = which;
        if (id !== undefined) return endSessions(transaction, { personId, id });
        return endAllSessions(transaction, personId, exceptDigest);
      }),

    sweep: (nowMs, seenBeforeMs) =>
      base.write(async (transaction) => {
        await transaction
          .deleteFrom('session')
          .where((either) => either.or([either('ends_at_ms', '<=', nowMs), either('seen_at_ms', '<', seenBeforeMs)]))
          .execute();
        await transaction.deleteFrom('link').where('ends_at_ms', '<=', nowMs).execute();
        await transaction.deleteFrom('api_token').where('ends_at_ms', '<=', nowMs).execute();
      }),
  };
}

export function journalLinks(base: JournalBase): PeopleJournal['links'] {
  return {
    add: (link) =>
      base.write(async (transaction) => {
        await transaction
          .insertInto('link')
          .values({
            digest: link.digest,
            id: link.id,
            kind: link.kind,
            role: link.role,
            person_id: link.personId,
            made_by: link.madeBy,
            made_by_id: link.madeById,
            made_at_ms: link.madeAtMs,
            ends_at_ms: link.endsAtMs,
          })
          .execute();
      }),

    find: (digest, nowMs) =>
      base.read(async (db) => {
        const row = await db
          .selectFrom('link')
          .selectAll()
          .where('digest', '=', digest)
          .where('ends_at_ms', '>', nowMs)
          .executeTakeFirst();
        return row && (await mayStillInvite(db, row)) ? linkFromRow(row) : undefined;
      }),

    open: (nowMs) =>
      base.read(async (db) => {
        const rows = await db
          .selectFrom('link')
          .selectAll()
          .where('ends_at_ms', '>', nowMs)
          .orderBy('made_at_ms')
          .orderBy('id')
          .execute();
        const standing = await Promise.all(rows.map(async (row) => ((await mayStillInvite(db, row)) ? [row] : [])));
        return standing.flat().map(linkFromRow);
      }),

    remove: (id) =>
      base.write(async (transaction) => {
        const { numDeletedRows } = await transaction.deleteFrom('link').where('id', '=', id).executeTakeFirstOrThrow();
        return numDeletedRows > 0n;
      }),
  };
}

function sessionFromRow(row: JournalTables['session']): SessionRecord {
  return {
    id: row.id,
    digest: row.digest,
    personId: row.person_id,
    madeAtMs: row.made_at_ms,
    seenAtMs: row.seen_at_ms,
    endsAtMs: row.ends_at_ms,
    address: row.address,
    agent: row.agent,
  };
}

function linkFromRow(row: JournalTables['link']): LinkRecord {
  return {
    id: row.id,
    digest: row.digest,
    kind: row.kind,
    role: row.role,
    personId: row.person_id,
    madeBy: row.made_by,
    madeById: row.made_by_id,
    madeAtMs: row.made_at_ms,
    endsAtMs: row.ends_at_ms,
  };
}
