/**
 * Whether the person behind an e-mail address has said that it is theirs. Addresses of before go on, so that nobody misses a
 * warning: as confirmed where a link in a mail to them was used, else as not confirmed yet.
 */
import type { Kysely } from 'kysely';

interface Before {
  telling: { person_id: string; wishes: string };
  message: { notice_id: string; person_id: string; way: string; address: string };
  told_link: { notice_id: string; person_id: string; way: string; used_at_ms: number | null };
  mail_address: { person_id: string; address: string; standing: string; since_ms: number; tries: number };
}

export async function up(db: Kysely<Before>): Promise<void> {
  await db.schema
    .createTable('mail_address')
    .addColumn('person_id', 'text', (column) => column.notNull())
    // In small letters.
    .addColumn('address', 'text', (column) => column.notNull())
    .addColumn('standing', 'text', (column) => column.notNull())
    .addColumn('since_ms', 'bigint', (column) => column.notNull())
    // When the newest code was asked for, and how often one was entered since.
    .addColumn('asked_at_ms', 'bigint')
    .addColumn('tries', 'integer', (column) => column.notNull())
    .addPrimaryKeyConstraint('mail_address_key', ['person_id', 'address'])
    .execute();

  for (const { person_id, wishes } of await db.selectFrom('telling').selectAll().execute()) {
    const address = addressIn(wishes);
    if (address === '') continue;
    const used = await db
      .selectFrom('told_link')
      .innerJoin('message', (join) =>
        join
          .onRef('message.notice_id', '=', 'told_link.notice_id')
          .onRef('message.person_id', '=', 'told_link.person_id')
          .onRef('message.way', '=', 'told_link.way'),
      )
      .select('told_link.used_at_ms')
      .where('told_link.person_id', '=', person_id)
      .where('told_link.way', '=', 'email')
      .where('told_link.used_at_ms', 'is not', null)
      .where('message.address', '=', address)
      .executeTakeFirst();
    await db
      .insertInto('mail_address')
      .values({
        person_id,
        address: address.toLowerCase(),
        standing: used ? 'confirmed' : 'before',
        since_ms: Number(used?.used_at_ms ?? 0),
        tries: 0,
      })
      .execute();
  }
}

function addressIn(wishes: string): string {
  try {
    const { email } = JSON.parse(wishes) as { email?: { address?: unknown } };
    return typeof email?.address === 'string' ? email.address : '';
  } catch {
    return '';
  }
}
