/**
 * Entries under the ids their clients chose, with every version of them. It never changes what was said: a correction
 * is the next version, and only the newest can be corrected.
 */
import { z } from 'zod';
import { Breaks } from '../../breaks.ts';
import { ConflictError } from '../../errors.ts';
import { jsonOf } from '../../json-of.ts';
import { message } from '../../messages/message.ts';
import { type Position, positionSchema } from '../../names.ts';
import type { EntriesQuestion, EntryRecord, Journal, Kept } from '../journal.ts';
import { mustHavePile } from './batch-rows.ts';
import { entryPlan, entryToRow, saysTheSame } from './entry-rows.ts';
import { claimForHand, renewHandClaims } from './hand-claims.ts';
import type { JournalBase, JournalDb, JournalTransaction } from './journal-base.ts';
import type { EntryRow } from './tables.ts';

export function journalEntries(base: JournalBase): Journal['entries'] {
  return {
    list: (question) => base.read((db) => listEntries(base, db, question)),

    versions: (entryId) =>
      base.read(async (db) => {
        const rows = await db
          .selectFrom('entry')
          .selectAll()
          .where('entry_id', '=', entryId)
          .orderBy('version')
          .execute();
        return base.rows.all(entryPlan, rows);
      }),

    earlier: () =>
      base.read(async (db) => {
        const rows = await db
          .selectFrom('entry')
          .selectAll()
          .where('newest', '=', 0)
          .orderBy('entry_id')
          .orderBy('version')
          .execute();
        return base.rows.all(entryPlan, rows);
      }),

    add: (entry) => base.write((transaction) => addEntry(transaction, entry)),

    correct: (entry, replaces) => base.write((transaction) => correctEntry(transaction, entry, replaces)),
  };
}

/** Rows read in one go, so that a long page holds up nobody else for more than a few milliseconds. */
const mostAtOnce = 50;

/** A page is as long as asked for while there is more: rows that cannot be read are not counted. */
async function listEntries(base: JournalBase, db: JournalDb, question: EntriesQuestion): Promise<EntryRecord[]> {
  const { limit } = question;
  const page: EntryRecord[] = [];
  const breaks = new Breaks();
  let after = question.after;
  for (;;) {
    const asked = Math.min(limit - page.length, mostAtOnce);
    const rows = await entryRows(db, { ...question, limit: asked, ...(after && { after }) });
    page.push(...base.rows.all(entryPlan, rows));
    const last = rows.at(-1);
    if (!last || rows.length < asked || page.length >= limit) return page;
    after = { atMs: last.at_ms, entryId: last.entry_id };
    await breaks.take();
  }
}

function entryRows(db: JournalDb, question: EntriesQuestion): Promise<EntryRow[]> {
  const { pileId, fromMs, toMs, batchId, kinds, withdrawn, limit, after } = question;
  let rows = db.selectFrom('entry').selectAll().where('newest', '=', 1);
  if (pileId !== undefined) rows = rows.where('pile_id', '=', pileId);
  rows = rows.where((where) => {
    const inTime = [
      ...(fromMs === undefined ? [] : [where('at_ms', '>=', fromMs)]),
      ...(toMs === undefined ? [] : [where('at_ms', '<', toMs)]),
    ];
    if (batchId === undefined) return where.and(inTime);
    return where.or([where('batch_id', '=', batchId), where.and([where('batch_id', 'is', null), ...inTime])]);
  });
  if (kinds !== undefined) rows = rows.where('kind', 'in', [...kinds]);
  if (!withdrawn) rows = rows.where('withdrawn', '=', 0);
  if (after) {
    rows = rows.where((where) =>
      where.or([
        where('at_ms', '<', after.atMs),
        where.and([where('at_ms', '=', after.atMs), where('entry_id', '<', after.entryId)]),
      ]),
    );
  }
  return rows.orderBy('at_ms', 'desc').orderBy('entry_id', 'desc').limit(limit).execute();
}

/** @returns the kept row when this was said before. @throws {ConflictError} when the id said something else. */
async function saidBefore(transaction: JournalTransaction, row: EntryRow): Promise<EntryRow | undefined> {
  const kept = await transaction.selectFrom('entry').selectAll().where('id', '=', row.id).executeTakeFirst();
  if (kept && !(kept.entry_id === row.entry_id && saysTheSame(kept, row))) {
    throw new ConflictError(message('problem.entry-id-taken', { idText: row.id }), '/id');
  }
  return kept;
}

async function mustHavePhotos(transaction: JournalTransaction, photoIds: readonly string[]): Promise<void> {
  for (const [index, id] of photoIds.entries()) {
    const photo = await transaction.selectFrom('photo').select('id').where('id', '=', id).executeTakeFirst();
    if (photo) continue;
    throw new ConflictError(message('problem.entry-needs-photo', { idText: id }), `/photoIds/${index}`);
  }
}

/** A batch is judged where it lay: its verdict stands in the journal of that pile. */
async function mustHaveBatch(transaction: JournalTransaction, pileId: string, batchId: string | null): Promise<void> {
  if (batchId === null) return;
  const batch = await transaction
    .selectFrom('batch')
    .select('id')
    .where('id', '=', batchId)
    .where('pile_id', '=', pileId)
    .executeTakeFirst();
  if (batch) return;
  throw new ConflictError(message('problem.entry-needs-batch', { idText: batchId }), '/what/batchId');
}

export async function addEntry(transaction: JournalTransaction, entry: EntryRecord): Promise<Kept> {
  const row = entryToRow({ ...entry, entryId: entry.id, version: 1 });
  if (await saidBefore(transaction, row)) return 'known';
  await mustHavePile(transaction, entry.pileId);
  await mustHaveBatch(transaction, entry.pileId, row.batch_id);
  await mustHavePhotos(transaction, entry.photoIds);
  await transaction.insertInto('entry').values(row).execute();
  await claimForHand(transaction, entry.pileId, entry.what);
  return 'kept';
}

async function correctEntry(transaction: JournalTransaction, entry: EntryRecord, replaces: string): Promise<Kept> {
  const row = entryToRow(entry);
  if (await saidBefore(transaction, row)) return 'known';
  const before = await transaction
    .selectFrom('entry')
    .selectAll()
    .where('entry_id', '=', entry.entryId)
    .where('newest', '=', 1)
    .executeTakeFirst();
  if (before?.id !== replaces) {
    throw new ConflictError(
      message('problem.entry-changed', { idText: entry.entryId, newestText: String(before?.id) }),
      '/replaces',
    );
  }
  await mustHaveBatch(transaction, before.pile_id, row.batch_id);
  await mustHavePhotos(transaction, entry.photoIds);
  await transaction.updateTable('entry').set({ newest: 0 }).where('id', '=', before.id).execute();
  await transaction
    .insertInto('entry')
    .values({ ...row, pile_id: before.pile_id, version: before.version + 1 })
    .execute();
  await renewHandClaims(transaction, before.pile_id, measuredAt(before.what, row.what));
  return 'kept';
}

/** Places that either version says were measured by hand; what cannot be read says nothing. */
function measuredAt(...facts: readonly string[]): ReadonlySet<Position> {
  return new Set(
    facts.flatMap((text) => {
      const what = measuredSchema.safeParse(jsonOf(text));
      return what.success ? [what.data.position] : [];
    }),
  );
}

const measuredSchema = z.object({ kind: z.literal('measured'), position: positionSchema });
