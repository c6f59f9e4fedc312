/** How each person wants to be notified, their devices, links and escalations. */
import { z } from 'zod';
import { type Preferences, preferencesSchema } from '../../notifications.ts';
import type {
  DeviceHere,
  EscalationRecord,
  EscalationStepRecord,
  NotificationLink,
  NotificationsStore,
  PushDevice,
} from '../notifications-store.ts';
import type { JournalBase, JournalTransaction } from './journal-base.ts';
import type { RowPlan } from './read-rows.ts';
import { setAside } from './set-aside.ts';

const idsSchema = z.array(z.string());

/** Kept before 1.0, preferences have `tellCleared`. */
const storedPreferencesSchema = z.preprocess(withNotifyCleared, preferencesSchema);

export const preferencesPlan: RowPlan<'notification_preferences', { personId: string; preferences: Preferences }> = {
  table: 'notification_preferences',
  toRecord: (row, json) => ({
    personId: row.person_id,
    preferences: json('preferences', row.preferences, storedPreferencesSchema),
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

/** Without its order everybody at a site is notified at once. */
export const escalationPlan: RowPlan<'escalation', EscalationRecord> = {
  table: 'escalation',
  toRecord: (row, json) => ({
    siteId: row.site_id,
    personIds: json('person_ids', row.person_ids, idsSchema),
    afterMin: row.after_min,
  }),
};

export const escalationStepPlan: RowPlan<'escalation_step', EscalationStepRecord> = {
  table: 'escalation_step',
  toRecord: (row) => ({ alarmId: row.alarm_id, step: row.step, atMs: row.at_ms }),
};

/** By one that cannot be read nothing is acknowledged. */
export const notificationLinkPlan: RowPlan<'notification_link', NotificationLink> = {
  table: 'notification_link',
  toRecord: (row) => ({
    digest: row.digest,
    noticeId: row.notice_id,
    personId: row.person_id,
    personName: row.person_name,
    channel: row.channel,
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
        const rows = await db.selectFrom('notification_preferences').selectAll().orderBy('person_id').execute();
        return base.rows.all(preferencesPlan, rows);
      }),
    set: (personId, given) =>
      base.write(async (transaction) => {
        const preferences = JSON.stringify(given);
        await setAside(base, transaction, 'notification_preferences', { person_id: personId });
        await transaction
          .insertInto('notification_preferences')
          .values({ person_id: personId, preferences })
          .onConflict((conflict) => conflict.column('person_id').doUpdateSet({ preferences }))
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
          .insertInto('notification_link')
          .values({
            digest: link.digest,
            notice_id: link.noticeId,
            person_id: link.personId,
            person_name: link.personName,
            channel: link.channel,
            expires_at_ms: link.expiresAtMs,
            used_at_ms: link.usedAtMs,
          })
          .execute();
      }),
    get: (digest) =>
      base.read(async (db) => {
        const row = await db
          .selectFrom('notification_link')
          .selectAll()
          .where('digest', '=', digest)
          .executeTakeFirst();
        return base.rows.ifReadable(notificationLinkPlan, row);
      }),
    use: (digest, atMs) =>
      base.write(async (transaction) => {
        const { numUpdatedRows } = await transaction
          .updateTable('notification_link')
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
        const rows = await db.selectFrom('escalation').selectAll().orderBy('site_id').execute();
        return base.rows.all(escalationPlan, rows);
      }),
    set: ({ siteId, personIds, afterMin }) =>
      base.write(async (transaction) => {
        const changing = { person_ids: JSON.stringify(personIds), after_min: afterMin };
        await setAside(base, transaction, 'escalation', { site_id: siteId });
        await transaction
          .insertInto('escalation')
          .values({ site_id: siteId, ...changing })
          .onConflict((conflict) => conflict.column('site_id').doUpdateSet(changing))
          .execute();
      }),
    steps: (alarmIds) =>
      base.read(async (db): Promise<EscalationStepRecord[]> => {
        if (alarmIds.length === 0) return [];
        const rows = await db
          .selectFrom('escalation_step')
          .selectAll()
          .where('alarm_id', 'in', [...alarmIds])
          .execute();
        return base.rows.all(escalationStepPlan, rows);
      }),
    setStep: (step) => base.write((transaction) => setStep(transaction, step)),
  };
}

export async function setStep(transaction: JournalTransaction, step: EscalationStepRecord): Promise<void> {
  const changing = { step: step.step, at_ms: step.atMs };
  await transaction
    .insertInto('escalation_step')
    .values({ alarm_id: step.alarmId, ...changing })
    .onConflict((conflict) => conflict.column('alarm_id').doUpdateSet(changing))
    .execute();
}

function withNotifyCleared(kept: unknown): unknown {
  if (typeof kept !== 'object' || kept === null || !('tellCleared' in kept)) return kept;
  const { tellCleared, ...rest } = kept;
  return { notifyCleared: tellCleared, ...rest };
}
