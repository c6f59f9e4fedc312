/**
 * What is to be told to people, how it went, and how each wants to be told.
 *
 * Persons are named by id without a reference: what somebody was told stays when the person is gone.
 */
import type { Kysely } from 'kysely';

export async function up(db: Kysely<unknown>): Promise<void> {
  await db.schema
    .createTable('notice')
    .addColumn('id', 'text', (column) => column.primaryKey())
    // One thing is told once: the same key again is the same notice.
    .addColumn('key', 'text', (column) => column.notNull().unique())
    .addColumn('about', 'text', (column) => column.notNull())
    .addColumn('answer', 'text', (column) => column.notNull())
    .addColumn('rank', 'integer', (column) => column.notNull())
    .addColumn('site_id', 'text')
    .addColumn('pile_id', 'text')
    .addColumn('alarm_id', 'text')
    .addColumn('person_id', 'text')
    .addColumn('at_ms', 'bigint', (column) => column.notNull())
    .addColumn('due_ms', 'bigint', (column) => column.notNull())
    .addColumn('facts', 'text', (column) => column.notNull())
    .addColumn('state', 'text', (column) => column.notNull())
    .addColumn('joined_id', 'text')
    .addColumn('taken_by', 'text')
    .addColumn('taken_until_ms', 'bigint')
    .execute();
  await db.schema.createIndex('notice_by_state').on('notice').columns(['state', 'due_ms']).execute();
  await db.schema.createIndex('notice_of_alarm').on('notice').columns(['alarm_id', 'at_ms']).execute();

  await db.schema
    .createTable('message')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('notice_id', 'text', (column) => column.notNull().references('notice.id'))
    .addColumn('person_id', 'text', (column) => column.notNull())
    .addColumn('person_name', 'text', (column) => column.notNull())
    .addColumn('way', 'text', (column) => column.notNull())
    .addColumn('address', 'text', (column) => column.notNull())
    .addColumn('address_label', 'text', (column) => column.notNull())
    .addColumn('rank', 'integer', (column) => column.notNull())
    .addColumn('state', 'text', (column) => column.notNull())
    .addColumn('reason', 'text')
    .addColumn('made_at_ms', 'bigint', (column) => column.notNull())
    .addColumn('not_before_ms', 'bigint', (column) => column.notNull())
    .addColumn('tries', 'integer', (column) => column.notNull())
    .addColumn('next_try_ms', 'bigint', (column) => column.notNull())
    .addColumn('done_at_ms', 'bigint')
    .addColumn('seen_at_ms', 'bigint')
    .addColumn('taken_by', 'text')
    .addColumn('taken_until_ms', 'bigint')
    .addUniqueConstraint('message_key', ['notice_id', 'person_id', 'way', 'address'])
    .execute();
  await db.schema.createIndex('message_by_state').on('message').columns(['state', 'way', 'next_try_ms']).execute();

  await db.schema
    .createTable('message_attempt')
    .addColumn('message_id', 'text', (column) => column.notNull().references('message.id'))
    .addColumn('number', 'integer', (column) => column.notNull())
    .addColumn('at_ms', 'bigint', (column) => column.notNull())
    .addColumn('took_ms', 'bigint', (column) => column.notNull())
    .addColumn('outcome', 'text', (column) => column.notNull())
    .addColumn('detail', 'text', (column) => column.notNull())
    .addPrimaryKeyConstraint('message_attempt_key', ['message_id', 'number'])
    .execute();

  await db.schema
    .createTable('telling')
    .addColumn('person_id', 'text', (column) => column.primaryKey())
    .addColumn('wishes', 'text', (column) => column.notNull())
    .execute();

  await db.schema
    .createTable('push_device')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('person_id', 'text', (column) => column.notNull())
    .addColumn('endpoint', 'text', (column) => column.notNull().unique())
    .addColumn('p256dh', 'text', (column) => column.notNull())
    .addColumn('auth', 'text', (column) => column.notNull())
    .addColumn('label', 'text', (column) => column.notNull())
    .addColumn('added_at_ms', 'bigint', (column) => column.notNull())
    .addColumn('last_ok_at_ms', 'bigint')
    .execute();

  // Of the secret in a link only its digest is kept.
  await db.schema
    .createTable('told_link')
    .addColumn('digest', 'text', (column) => column.primaryKey())
    .addColumn('notice_id', 'text', (column) => column.notNull().references('notice.id'))
    .addColumn('person_id', 'text', (column) => column.notNull())
    .addColumn('person_name', 'text', (column) => column.notNull())
    .addColumn('way', 'text', (column) => column.notNull())
    .addColumn('expires_at_ms', 'bigint', (column) => column.notNull())
    .addColumn('used_at_ms', 'bigint')
    .execute();

  await db.schema
    .createTable('hand_on')
    .addColumn('site_id', 'text', (column) => column.primaryKey())
    .addColumn('person_ids', 'text', (column) => column.notNull())
    .addColumn('after_min', 'integer', (column) => column.notNull())
    .execute();

  await db.schema
    .createTable('turn')
    .addColumn('alarm_id', 'text', (column) => column.primaryKey().references('alarm.id'))
    .addColumn('place', 'integer', (column) => column.notNull())
    .addColumn('at_ms', 'bigint', (column) => column.notNull())
    .execute();
}
