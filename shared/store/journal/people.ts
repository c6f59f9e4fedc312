/**
 * Who belongs to the server. It never leaves the server without an owner once there was one, or lets one link be used
 * twice.
 */

import { ConflictError } from '../../errors.ts';
import { message } from '../../messages/message.ts';
import { serviceChannels, serviceKey } from '../../notification-services/services.ts';
import type { LinkRecord, PeopleJournal } from '../people-journal.ts';
import { endAllHeld } from './held.ts';
import { type JournalBase, type JournalDb, type JournalTransaction, setSetting } from './journal-base.ts';
import { linkPlan, mayStillInvite } from './link-maker.ts';
import { ownersOf, personPlan, presentPerson } from './person-row.ts';

type People = PeopleJournal['people'];

export function journalPeople(base: JournalBase): People {
  return {
    list: () => base.read((db) => listPeople(base, db)),
    get: (id) => base.read((db) => presentPerson(base, db, id)),
    damaged: () => base.read((db) => damagedPeople(base, db)),
    byNameKey: (nameKey) => base.read((db) => personByNameKey(base, db, nameKey)),
    hasOwner: () => base.read((db) => mayHaveOwner(base, db)),
    ownersUnreadable: () =>
      base.read(async (db) => {
        const { readable, unreadableCount } = await ownersOf(base.rows, db);
        return readable.length === 0 && unreadableCount > 0;
      }),
    join: (person, linkDigest, nowMs) =>
      base.write((transaction) => join(base, transaction, person, linkDigest, nowMs)),
    change: (id, wanted) => base.write((transaction) => change(base, transaction, id, wanted)),
    setPassword: (id, passwordHash, keepDigest) =>
      base.write((transaction) => setPassword(transaction, id, passwordHash, keepDigest)),
    endHeld: (id) => base.write((transaction) => endAllHeld(transaction, id)),
    renewHash: (id, passwordHash) => base.write((transaction) => setHash(transaction, id, passwordHash)),
    resetPassword: (id, passwordHash, linkDigest, nowMs) =>
      base.write(async (transaction) => {
        const link = await useLink(base, transaction, linkDigest, nowMs);
        if (link?.personId !== id) return false;
        await transaction.deleteFrom('link').where('person_id', '=', id).execute();
        await setPassword(transaction, id, passwordHash);
        return true;
      }),
    remove: (id, atMs) => base.write((transaction) => remove(base, transaction, id, atMs)),
  };
}

async function listPeople(base: JournalBase, db: JournalDb): ReturnType<People['list']> {
  const rows = await db
    .selectFrom('person')
    .selectAll()
    .where('removed_at_ms', 'is', null)
    .orderBy('name_key')
    .execute();
  return base.rows.all(personPlan, rows);
}

async function damagedPeople(base: JournalBase, db: JournalDb): ReturnType<People['damaged']> {
  const rows = await db.selectFrom('person').selectAll().where('removed_at_ms', 'is', null).execute();
  return rows.flatMap((row) => {
    const { id, name }: { id: unknown; name: unknown } = row;
    if (typeof id !== 'string' || base.rows.ifReadable(personPlan, row)) return [];
    return [{ id, name: typeof name === 'string' && name !== '' ? name : id }];
  });
}

async function personByNameKey(base: JournalBase, db: JournalDb, nameKey: string): ReturnType<People['byNameKey']> {
  const row = await db
    .selectFrom('person')
    .selectAll()
    .where('name_key', '=', nameKey)
    .where('removed_at_ms', 'is', null)
    .executeTakeFirst();
  return base.rows.ifReadable(personPlan, row);
}

/** @returns false when the link lets nobody in, or not as the first owner any more. */
async function join(
  base: JournalBase,
  transaction: JournalTransaction,
  person: Parameters<People['join']>[0],
  linkDigest: string,
  nowMs: number,
): Promise<boolean> {
  await oneAtATime(transaction);
  const link = await useLink(base, transaction, linkDigest, nowMs);
  if (!link) return false;
  const isSetup = link.kind === 'setup';
  if (isSetup && (await mayHaveOwner(base, transaction))) return false;
  await refuseTakenName(transaction, person.nameKey);
  // The first owner takes every other link for a first owner with them.
  if (isSetup) await transaction.deleteFrom('link').where('kind', '=', 'setup').execute();
  await transaction
    .insertInto('person')
    .values({
      id: person.id,
      name: person.name,
      name_key: person.nameKey,
      role: person.role,
      password_hash: person.passwordHash,
      created_at_ms: person.createdAtMs,
      removed_at_ms: null,
      language: person.language,
    })
    .execute();
  return true;
}

async function change(
  base: JournalBase,
  transaction: JournalTransaction,
  id: string,
  { name, nameKey, role, language }: Parameters<People['change']>[1],
): Promise<void> {
  await oneAtATime(transaction);
  if (nameKey !== undefined) await refuseTakenName(transaction, nameKey, id);
  const before = await transaction.selectFrom('person').select('role').where('id', '=', id).executeTakeFirst();
  if (role !== undefined && role !== before?.role) {
    if (role !== 'owner') await refuseLastOwner(base, transaction, id, '/role');
    await transaction.deleteFrom('session').where('person_id', '=', id).execute();
    await transaction.deleteFrom('link').where('made_by_id', '=', id).execute();
  }
  if (name === undefined && nameKey === undefined && role === undefined && language === undefined) return;
  await transaction
    .updateTable('person')
    .set({
      ...(name !== undefined && { name }),
      ...(nameKey !== undefined && { name_key: nameKey }),
      ...(role !== undefined && { role }),
      ...(language !== undefined && { language }),
    })
    .where('id', '=', id)
    .execute();
}

/** With all they hold; what they wrote stays, under their name. */
async function remove(base: JournalBase, transaction: JournalTransaction, id: string, atMs: number): Promise<void> {
  await oneAtATime(transaction);
  await refuseLastOwner(base, transaction, id, '');
  await endAllHeld(transaction, id);
  await transaction.deleteFrom('link').where('person_id', '=', id).execute();
  await transaction.deleteFrom('mail_address').where('person_id', '=', id).execute();
  // Keys of services that brought them messages.
  const serviceKeys = serviceChannels.map((channel) => serviceKey(id, channel));
  await transaction.deleteFrom('setting').where('key', 'in', serviceKeys).execute();
  await transaction
    .updateTable('person')
    .set({ removed_at_ms: atMs, password_hash: '' })
    .where('id', '=', id)
    .where('removed_at_ms', 'is', null)
    .execute();
}

/** Two owners who demote each other at once must not both succeed: a row that both write lines them up. */
function oneAtATime(transaction: JournalTransaction): Promise<void> {
  return setSetting(transaction, 'people-changed', 'one at a time');
}

/** With one whose row is damaged nobody else becomes the first owner. */
async function mayHaveOwner(base: JournalBase, db: JournalDb): Promise<boolean> {
  const { readable, unreadableCount } = await ownersOf(base.rows, db);
  return readable.length + unreadableCount > 0;
}

async function refuseLastOwner(
  base: JournalBase,
  transaction: JournalTransaction,
  id: string,
  pointer: string,
): Promise<void> {
  const left = (await ownersOf(base.rows, transaction)).readable.filter((owner) => owner.id !== id);
  const row = await transaction.selectFrom('person').select('role').where('id', '=', id).executeTakeFirst();
  if (row?.role !== 'owner' || left.length > 0) return;
  throw new ConflictError(message('problem.last-owner'), pointer);
}

async function refuseTakenName(transaction: JournalTransaction, nameKey: string, but?: string): Promise<void> {
  const taken = await transaction
    .selectFrom('person')
    .select('id')
    .where('name_key', '=', nameKey)
    .where('removed_at_ms', 'is', null)
    .executeTakeFirst();
  if (taken && taken.id !== but) throw new ConflictError(message('problem.name-taken'), '/name');
}

/** A link that cannot be read lets nobody in, and stays as it is. */
async function useLink(
  base: JournalBase,
  transaction: JournalTransaction,
  digest: string,
  nowMs: number,
): Promise<LinkRecord | undefined> {
  const row = await transaction
    .selectFrom('link')
    .selectAll()
    .where('digest', '=', digest)
    .where('ends_at_ms', '>', nowMs)
    .executeTakeFirst();
  const link = base.rows.ifReadable(linkPlan, row);
  if (!link) return undefined;
  await transaction.deleteFrom('link').where('digest', '=', digest).execute();
  return (await mayStillInvite(base.rows, transaction, link)) ? link : undefined;
}

async function setPassword(
  transaction: JournalTransaction,
  id: string,
  passwordHash: string,
  keepDigest?: string,
): Promise<void> {
  await setHash(transaction, id, passwordHash);
  await endAllHeld(transaction, id, keepDigest);
}

async function setHash(transaction: JournalTransaction, id: string, passwordHash: string): Promise<void> {
  await transaction
    .updateTable('person')
    .set({ password_hash: passwordHash })
    .where('id', '=', id)
    .where('removed_at_ms', 'is', null)
    .execute();
}
