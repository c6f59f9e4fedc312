/** Who is signed in, and the links by which people come in. */
import type { PeopleJournal, SessionRecord } from '../people-journal.ts';
import { endAllSessions, endSessions, replaceSession } from './held.ts';
import type { JournalBase } from './journal-base.ts';
import { byProgram, linkPlan, mayStillInvite } from './link-maker.ts';
import { presentPerson } from './person-row.ts';
import type { RowPlan } from './read-rows.ts';

/** Nothing stands in for a damaged column: by such a session nobody is signed in. */
export const sessionPlan: RowPlan<'session', SessionRecord> = {
  table: 'session',
  toRecord: (row) => ({
    id: row.id,
    digest: row.digest,
    personId: row.person_id,
    madeAtMs: row.made_at_ms,
    seenAtMs: row.seen_at_ms,
    endsAtMs: row.ends_at_ms,
    address: row.address,
    agent: row.agent,
  }),
};

function rowOf(session: SessionRecord) {
  return {
    digest: session.digest,
    id: session.id,
    person_id: session.personId,
    made_at_ms: session.madeAtMs,
    seen_at_ms: session.seenAtMs,
    ends_at_ms: session.endsAtMs,
    address: session.address,
    agent: session.agent,
  };
}

export function journalSessions(base: JournalBase): PeopleJournal['sessions'] {
  return {
    add: (session, replaces) =>
      base.write(async (transaction) => {
        if (replaces !== undefined) await replaceSession(transaction, replaces, session);
        await transaction.insertInto('session').values(rowOf(session)).execute();
      }),

    find: (digest) =>
      base.read(async (db) => {
        const row = await db.selectFrom('session').selectAll().where('digest', '=', digest).executeTakeFirst();
        const session = base.rows.ifReadable(sessionPlan, row);
        if (!session) return undefined;
        const person = await presentPerson(base, db, session.personId);
        return person && { session, person };
      }),

    list: (personId) =>
      base.read(async (db) => {
        let rows = db.selectFrom('session').selectAll();
        if (personId !== undefined) rows = rows.where('person_id', '=', personId);
        return base.rows.all(sessionPlan, await rows.orderBy('made_at_ms', 'desc').orderBy('id').execute());
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

    cleanUp: (nowMs, seenBeforeMs) =>
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
            made_by: link.madeBy ?? byProgram,
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
        const link = base.rows.ifReadable(linkPlan, row);
        return link && (await mayStillInvite(base.rows, db, link)) ? link : undefined;
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
        const standing = base.rows
          .all(linkPlan, rows)
          .map(async (link) => ((await mayStillInvite(base.rows, db, link)) ? [link] : []));
        return (await Promise.all(standing)).flat();
      }),

    remove: (id) =>
      base.write(async (transaction) => {
        const { numDeletedRows } = await transaction.deleteFrom('link').where('id', '=', id).executeTakeFirstOrThrow();
        return numDeletedRows > 0n;
      }),
  };
}
