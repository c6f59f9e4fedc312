import { Client } from 'pg';
import { storeError } from '../store-error.ts';
import type { InspectedJournal } from './inspected-journal.ts';
import { majorOf, reachWithinMs, withoutSecrets } from './postgres-address.ts';

/** @returns undefined where no journal is yet. @throws {StoreError} one line that says why it cannot be read. */
export async function inspectPostgres(url: string): Promise<InspectedJournal | undefined> {
  const where = withoutSecrets(url);
  const client = new Client({
    connectionString: url,
    application_name: 'branhearth-check',
    connectionTimeoutMillis: reachWithinMs,
    query_timeout: reachWithinMs,
    statement_timeout: reachWithinMs,
    lock_timeout: reachWithinMs,
  });
  client.on('error', () => {});
  const ask = async (question: string) => {
    try {
      return (await client.query<Record<string, unknown>>(question)).rows;
    } catch (cause) {
      throw storeError(`read the journal at ${where}`, cause);
    }
  };
  const close = async () => client.end().catch(() => undefined);
  try {
    await client.connect();
    const major = await majorOf(client, url);
    return {
      where: `${where} (PostgreSQL ${major})`,
      inFile: false,
      ask,
      tryWriting: () => tryWriting(client, where),
      close,
    };
  } catch (cause) {
    await close();
    throw storeError(`open the journal at ${where}`, cause);
  }
}

/** Tables are made at a start, so that is tried too. */
async function tryWriting(client: Client, where: string): Promise<void> {
  try {
    await client.query('BEGIN');
    await client.query('CREATE TABLE branhearth_check (value text)');
    await client.query(`INSERT INTO branhearth_check VALUES ('check')`);
  } catch (cause) {
    throw storeError(`write to the journal at ${where}`, cause);
  } finally {
    await client.query('ROLLBACK').catch(() => undefined);
  }
}
