/** A PostgreSQL as it is reached, and whether it is one of ours to use. */
import type { Client } from 'pg';
import { StoreError } from '../../errors.ts';

/** The oldest that its makers still mend; the tests run on 15. */
const oldestMajor = 14;
export const reachWithinMs = 5_000;

/** As it may be shown. */
export function withoutSecrets(url: string): string {
  if (!URL.canParse(url)) return 'an address that cannot be read';
  const { hostname, port, pathname } = new URL(url);
  return `postgres://${hostname}${port && `:${port}`}${pathname}`;
}

/** @throws {StoreError} when it is too old. */
export async function majorOf(client: Client, url: string): Promise<number> {
  const { rows } = await client.query<{ server_version_num: string }>('SHOW server_version_num');
  const major = Math.floor(Number(rows[0]?.server_version_num) / 10_000);
  if (major >= oldestMajor) return major;
  throw new StoreError(
    `Cannot open the journal at ${withoutSecrets(url)} as it must be PostgreSQL ${oldestMajor} or later: it is ${major}`,
  );
}
