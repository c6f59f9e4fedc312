/** How much room the readings take, where the database tells it. */
import type { KnownInflux } from './influx-address.ts';
import type { InfluxClient } from './influx-client.ts';

/** 0 when it does not tell: generations 2 and 3, or a user of generation 1 who may not ask. */
export async function diskBytes(client: InfluxClient, { generation, bucket }: KnownInflux): Promise<number> {
  if (generation !== 1) return 0;
  const database = bucket.split('/')[0];
  try {
    const [shards = []] = await client.query(["SHOW STATS FOR 'shard'"]);
    return shards
      .filter(({ tags }) => tags.database === database)
      .reduce((sum, { columns, values }) => sum + Number(values[0]?.[columns.indexOf('diskBytes')] ?? 0), 0);
  } catch {
    return 0;
  }
}
