/** How each person wants to be told, their devices, links and turns. */
import { z } from 'zod';
import { type Preferences, preferencesSchema } from '../../notifications.ts';
import type {
  DeviceHere,
  EscalationRecord,
  NotificationLink,
  NotificationsStore,
  PushDevice,
  TurnRecord,
} from '../notifications-store.ts';
import type { JournalBase, JournalTransaction } from './journal-base.ts';
import type { RowPlan } from './read-rows.ts';
import { setAside } from './set-aside.ts';

const idsSchema = z.array(z.string());

/** Kept before 1.0, preferences have `tellCleared`. */
const storedPreferencesSchema = z.preprocess(withNotifyCleared, preferencesSchema);

export const preferencesPlan: RowPlan<'telling', { personId: string; preferences: Preferences }> = {
  table: 'telling',
  toRecord: (row, json) => ({
    personId: row.person_id,
    preferences: json('wishes', row.wishes, storedPreferencesSchema),
  }),
};

export const devicePlan: RowPlan<'push_device', PushDevice> = {
  table: 'push_device',
  toRecord: ({
    person_id: personId,
    added_at_ms: addedAtMs,
    last_ok_at_ms: lastOkAtMs,
    made_with: madeWith,
    ...device
  }) => ({
    ...device,
    personId,
    addedAtMs,
    lastOkAtMs,
    madeWith,
  }),
  standIns: () => ({ last_ok_at_ms: null, made_with: null }),
};

/** Without its order everybody at a site is told at once. */
export const escalationPlan: RowPlan<'hand_on', EscalationRecord> = {
  table: 'hand_on',
  toRecord: (row, json) => ({
    siteId: row.site_id,
    personIds: json('person_ids', row.person_ids, idsSchema),
    afterMin: row.after_min,
  }),
};

export const turnPlan: RowPlan<'turn', TurnRecord> = {
  table: 'turn',
  toRecord: (row) => ({ alarmId: row.alarm_id, place: row.place, atMs: row.at_ms }),
};

/** By one that cannot be read nothing is acknowledged. */
export const notificationLinkPlan: RowPlan<'told_link', NotificationLink> = {
  table: 'told_link',
  toRecord: (row) => ({
    digest: row.digest,
    noticeId: row.notice_id,
    personId: row.person_id,
    personName: row.person_name,
    channel: row.way,
    expiresAtMs: row.expires_at_ms,
    usedAtMs: row.used_at_ms,
  }),
};

export function journalNotificationPreferences(
  base: JournalBase,
): Pick<NotificationsStore, 'preferences' | 'devices' | 'links' | 'escalations'> {
  return {
    preferences: preferencesOf(base),
    devices: devicesOf(base),
    links: linksOf(base),
    escalations: escalationOf(base),
  };
}

function preferencesOf(base: JournalBase): NotificationsStore['preferences'] {
  return {
    list: () =>
      base.read(async (db) => {
        const rows = await db.selectFrom('telling').selectAll().orderBy('person_id').execute();
        return base.rows.all(preferencesPlan, rows);
      }),
    set: (personId, given) =>
      base.write(async (transaction) => {
        const wishes = JSON.stringify(given);
        await setAside(base, transaction, 'telling', { person_id: personId });
        await transaction
          .insertInto('telling')
          .values({ person_id: personId, wishes })
          .onConflict((conflict) => conflict.column('person_id').doUpdateSet({ wishes }))
          .execute();
      }),
  };
}

/** What a device that is kept again brings anew. */
function changingOf(device: PushDevice) {
  return {
    person_id: device.personId,
    p256dh: device.p256dh,
    auth: device.auth,
    label: device.label,
    added_at_ms: device.addedAtMs,
    last_ok_at_ms: device.lastOkAtMs,
    made_with: device.madeWith,
  };
}

function devicesOf(base: JournalBase): NotificationsStore['devices'] {
  return {
    list: (personId) =>
      base.read(async (db) => {
        let all = db.selectFrom('push_device').selectAll().orderBy('added_at_ms').orderBy('id');
        if (personId !== undefined) all = all.where('person_id', '=', personId);
        return base.rows.all(devicePlan, await all.execute());
      }),
    keep: (device) =>
      base.write(async (transaction) => {
        const changing = changingOf(device);
        await transaction
          .insertInto('push_device')
          .values({ id: device.id, endpoint: device.endpoint, ...changing })
          .onConflict((conflict) => conflict.column('endpoint').doUpdateSet(changing))
          .execute();
      }),
    remove: (id, personId) =>
      base.write(async (transaction) => {
        let removing = transaction.deleteFrom('push_device').where('id', '=', id);
        if (personId !== undefined) removing = removing.where('person_id', '=', personId);
        return (await removing.executeTakeFirst()).numDeletedRows > 0n;
      }),
    removeAll: () =>
      base.write(async (transaction) => {
        const { numDeletedRows } = await transaction.deleteFrom('push_device').executeTakeFirstOrThrow();
        return Number(numDeletedRows);
      }),
    here: (endpoint, personId, madeWith) =>
      base.write(async (transaction): Promise<DeviceHere> => {
        const row = await transaction
          .selectFrom('push_device')
          .select(['person_id', 'made_with'])
          .where('endpoint', '=', endpoint)
          .executeTakeFirst();
        if (!row) return 'unknown';
        if (row.person_id !== personId) {
          await transaction.deleteFrom('push_device').where('endpoint', '=', endpoint).execute();
          return 'anothers';
        }
        if (row.made_with === madeWith) return 'known';
        await transaction
          .updateTable('push_device')
          .set({ made_with: madeWith })
          .where('endpoint', '=', endpoint)
          .execute();
        return 'moved';
      }),
    worked: (id, atMs) =>
      base.write(async (transaction) => {
        await transaction.updateTable('push_device').set({ last_ok_at_ms: atMs }).where('id', '=', id).execute();
      }),
  };
}

function linksOf(base: JournalBase): NotificationsStore['links'] {
  return {
    add: (link) =>
      base.write(async (transaction) => {
        await transaction
          .insertInto('told_link')
          .values({
            digest: link.digest,
            notice_id: link.noticeId,
            person_id: link.personId,
            person_name: link.personName,
            way: link.channel,
            expires_at_ms: link.expiresAtMs,
            used_at_ms: link.usedAtMs,
          })
          .execute();
      }),
    get: (digest) =>
      base.read(async (db) => {
        const row = await db.selectFrom('told_link').selectAll().where('digest', '=', digest).executeTakeFirst();
        return base.rows.ifReadable(notificationLinkPlan, row);
      }),
    use: (digest, atMs) =>
      base.write(async (transaction) => {
        const { numUpdatedRows } = await transaction
          .updateTable('told_link')
          .set({ used_at_ms: atMs })
          .where('digest', '=', digest)
          .where('used_at_ms', 'is', null)
          .executeTakeFirst();
        return numUpdatedRows > 0n;
      }),
  };
}

function escalationOf(base: JournalBase): NotificationsStore['escalations'] {
  return {
    list: () =>
      base.read(async (db): Promise<EscalationRecord[]> => {
        const rows = await db.selectFrom('hand_on').selectAll().orderBy('site_id').execute();
        return base.rows.all(escalationPlan, rows);
      }),
    set: ({ siteId, personIds, afterMin }) =>
      base.write(async (transaction) => {
        const changing = { person_ids: JSON.stringify(personIds), after_min: afterMin };
        await setAside(base, transaction, 'hand_on', { site_id: siteId });
        await transaction
          .insertInto('hand_on')
          .values({ site_id: siteId, ...changing })
          .onConflict((conflict) => conflict.column('site_id').doUpdateSet(changing))
          .execute();
      }),
    turns: (alarmIds) =>
      base.read(async (db): Promise<TurnRecord[]> => {
        if (alarmIds.length === 0) return [];
        const rows = await db
          .selectFrom('turn')
          .selectAll()
          .where('alarm_id', 'in', [...alarmIds])
          .execute();
        return base.rows.all(turnPlan, rows);
      }),
    setTurn: (turn) => base.write((transaction) => setTurn(transaction, turn)),
  };
}

export async function setTurn(transaction: JournalTransaction, turn: TurnRecord): Promise<void> {
  const changing = { place: turn.place, at_ms: turn.atMs };
  await transaction
    .insertInto('turn')
    .values({ alarm_id: turn.alarmId, ...changing })
    .onConflict((conflict) => conflict.column('alarm_id').doUpdateSet(changing))
    .execute();
}

function withNotifyCleared(kept: unknown): unknown {
  if (typeof kept !== 'object' || kept === null || !('tellCleared' in kept)) return kept;
  const { tellCleared, ...rest } = kept;
  return { notifyCleared: tellCleared, ...rest };
}
