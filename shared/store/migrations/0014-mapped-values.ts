/** A mapping reads several values of a message, and more of each: what it reads is one JSON value. */
import type { Kysely } from 'kysely';

interface Before {
  mapping: {
    id: string;
    pointer: string;
    quantity: string;
    unit: string;
    scale: number;
    time_pointer: string | null;
    reads: string;
  };
}

export async function up(db: Kysely<Before>): Promise<void> {
  await db.schema
    .alterTable('mapping')
    .addColumn('reads', 'text', (column) => column.notNull().defaultTo('{}'))
    .execute();
  for (const { id, pointer, quantity, unit, scale, time_pointer: timePointer } of await db
    .selectFrom('mapping')
    .selectAll()
    .execute()) {
    const values = [{ pointer, quantity, unit, scale, offset: 0 }];
    const reads = JSON.stringify(timePointer === null ? { values } : { values, timePointer });
    await db.updateTable('mapping').set({ reads }).where('id', '=', id).execute();
  }
  for (const column of ['pointer', 'quantity', 'unit', 'scale', 'time_pointer'])
    await db.schema.alterTable('mapping').dropColumn(column).execute();
}
